//! A formula's own text, bent: each operator into the others, each constant larger, each function into its neighbour.

use setover::proof::notation::Expression;

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
