//! A formula's own text, bent: each operator into the others, each constant larger, each function into its neighbour, two
//! symbols of one kind each in the place of the other.

use setover::proof::Symbol;
use setover::proof::notation::Expression;
use setover::quantity::Unit;

/// The formula that the whole of a text reads as.
pub fn read(text: &str) -> Expression {
    Expression::read(text).unwrap_or_else(|| panic!("`{text}` is no formula"))
}

/// Every way to bend a text in one place.
pub fn mutants(whole: &Expression) -> Vec<Expression> {
    let mut all: Vec<Expression> = here(whole);
    match whole {
        Expression::Number(_) | Expression::Name(_) => {}
        Expression::Minus(inner) => all.extend(mutants(inner).into_iter().map(|m| Expression::Minus(Box::new(m)))),
        Expression::Brackets(inner) => all.extend(mutants(inner).into_iter().map(bracketed)),
        Expression::Pair(sign, left, right) => {
            let (sign, whole_left, whole_right) = (*sign, left.clone(), right.clone());
            let pair = |left, right| Expression::Pair(sign, left, right);
            all.extend(mutants(left).into_iter().map(|m| pair(Box::new(m), whole_right.clone())));
            all.extend(mutants(right).into_iter().map(|m| pair(whole_left.clone(), Box::new(m))));
        }
        Expression::Call(name, arguments) => {
            for (at, argument) in arguments.iter().enumerate() {
                all.extend(mutants(argument).into_iter().map(|m| {
                    let mut bent = arguments.clone();
                    bent[at] = m;
                    Expression::Call(name.clone(), bent)
                }));
            }
        }
    }
    all
}

/// Every way to set two symbols of one kind each in the place of the other.
pub fn swaps(whole: &Expression, symbols: &[Symbol]) -> Vec<Expression> {
    let pairs =
        symbols.iter().enumerate().flat_map(|(at, one)| symbols[at + 1..].iter().map(move |other| (one, other)));
    pairs
        .filter(|(one, other)| one.unit == other.unit)
        .map(|(one, other)| swapped(whole, one.name, other.name))
        .collect()
}

fn swapped(whole: &Expression, one: &str, other: &str) -> Expression {
    let inside = |inner: &Expression| Box::new(swapped(inner, one, other));
    match whole {
        Expression::Name(name) if name == one => Expression::Name(other.into()),
        Expression::Name(name) if name == other => Expression::Name(one.into()),
        Expression::Number(_) | Expression::Name(_) => whole.clone(),
        Expression::Minus(inner) => Expression::Minus(inside(inner)),
        Expression::Brackets(inner) => Expression::Brackets(inside(inner)),
        Expression::Pair(sign, left, right) => Expression::Pair(*sign, inside(left), inside(right)),
        Expression::Call(name, arguments) => {
            Expression::Call(name.clone(), arguments.iter().map(|argument| *inside(argument)).collect())
        }
    }
}

fn bracketed(inner: Expression) -> Expression {
    Expression::Brackets(Box::new(inner))
}

/// The ways to bend the outermost thing of a text.
fn here(whole: &Expression) -> Vec<Expression> {
    match whole {
        Expression::Number(digits) => {
            let number: f64 = digits.replace('_', "").parse().expect("a number");
            [number * 1.1, number + 1.0].map(|n| Expression::Number(format!("{n}"))).into()
        }
        Expression::Name(name) if name == "PI" => vec![Expression::Number(format!("{}", std::f64::consts::PI * 1.1))],
        Expression::Pair(sign, left, right) => {
            let others = ['+', '-', '*', '/'].into_iter().filter(|other| other != sign);
            others.map(|other| bracketed(Expression::Pair(other, left.clone(), right.clone()))).collect()
        }
        Expression::Call(name, arguments) => {
            let renamed = |name: &str| Expression::Call(name.into(), arguments.clone());
            let identity = || bracketed(arguments[0].clone());
            match name.as_str() {
                "sq" | "sqrt" | "ln" => vec![identity()],
                "sin" => vec![renamed("cos"), renamed("tan")],
                "cos" => vec![renamed("sin"), renamed("tan")],
                "tan" => vec![renamed("sin"), renamed("cos")],
                "max" => vec![renamed("min")],
                "min" => vec![renamed("max")],
                _ => Vec::new(),
            }
        }
        Expression::Name(_) | Expression::Minus(_) | Expression::Brackets(_) => Vec::new(),
    }
}

#[test]
fn a_text_is_bent_in_every_place() {
    let texts = |text: &str| -> Vec<String> { mutants(&read(text)).iter().map(|m| m.write(&|_| None)).collect() };
    assert_eq!(texts("a - 2.0"), ["(a + 2)", "(a·2)", "(a/2)", "a − 2.2", "a − 3"]);
    assert_eq!(texts("sq(d)"), ["(d)"]);
    assert_eq!(texts("tan(k)"), ["sin(k°)", "cos(k°)"]);
}

#[test]
fn symbols_of_one_kind_change_places() {
    let symbol = |name, unit| Symbol { name, word: "", unit, within: 0.0..=1.0 };
    let symbols = [symbol("d", Unit::Mm), symbol("n", Unit::RevPerMin), symbol("L", Unit::Mm)];
    let texts: Vec<String> = swaps(&read("sq(d) * n / L"), &symbols).iter().map(|m| m.write(&|_| None)).collect();
    assert_eq!(texts, ["L²·n/d"]);
}
