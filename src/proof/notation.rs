//! The text of a formula: read as an expression, written in the trade's notation, worked as printed.

use super::maths;

/// A formula's text, read.
#[derive(Clone, Debug, PartialEq)]
pub enum Expression {
    /// A number as it was written.
    Number(String),
    /// A symbol, or π.
    Name(String),
    /// A function of its arguments.
    Call(String, Vec<Expression>),
    /// Two sides and the sign between them.
    Pair(char, Box<Expression>, Box<Expression>),
    /// A sign turned.
    Minus(Box<Expression>),
    /// Something in brackets.
    Brackets(Box<Expression>),
}

impl Expression {
    /// Reads the text of a formula; `None` where it is not one.
    pub fn read(text: &str) -> Option<Self> {
        let mut reader = Reader { rest: text };
        let whole = reader.sum()?;
        reader.rest.trim().is_empty().then_some(whole)
    }

    /// Works the expression with the number of each symbol; `None` where a symbol or function is unknown.
    pub fn value(&self, number: &dyn Fn(&str) -> Option<f64>) -> Option<f64> {
        Some(match self {
            Self::Number(digits) => digits.replace('_', "").parse().ok()?,
            Self::Name(name) if name == "PI" => maths::PI,
            Self::Name(name) => number(name)?,
            Self::Brackets(inner) => inner.value(number)?,
            Self::Minus(inner) => -inner.value(number)?,
            Self::Pair(sign, left, right) => {
                let (left, right) = (left.value(number)?, right.value(number)?);
                match sign {
                    '+' => left + right,
                    '-' => left - right,
                    '*' => left * right,
                    _ => left / right,
                }
            }
            Self::Call(name, arguments) => {
                let given: Vec<f64> = arguments.iter().map(|a| a.value(number)).collect::<Option<_>>()?;
                match (name.as_str(), given.as_slice()) {
                    ("sqrt", &[x]) => maths::sqrt(x),
                    ("sq", &[x]) => maths::sq(x),
                    ("ln", &[x]) => maths::ln(x),
                    ("tan", &[x]) => maths::tan(x),
                    ("sin", &[x]) => maths::sin(x),
                    ("cos", &[x]) => maths::cos(x),
                    ("pow", &[x, exponent]) => maths::pow(x, exponent),
                    ("max", &[a, b]) => maths::max(a, b),
                    ("min", &[a, b]) => maths::min(a, b),
                    _ => return None,
                }
            }
        })
    }

    /// Writes it in the trade's notation; `put` may set a number in a symbol's place.
    pub fn write(&self, put: &dyn Fn(&str) -> Option<String>) -> String {
        match self {
            Self::Number(digits) => digits.strip_suffix(".0").unwrap_or(digits).replace('_', ""),
            Self::Name(name) if name == "PI" => "π".into(),
            Self::Name(name) => match put(name) {
                Some(number) if number.starts_with('-') => format!("({number})"),
                Some(number) => number,
                None => name.clone(),
            },
            Self::Brackets(inner) => format!("({})", inner.write(put)),
            Self::Minus(inner) => format!("−{}", inner.write(put)),
            Self::Pair(sign, left, right) => {
                let sign = match sign {
                    '*' => "·",
                    '/' => "/",
                    '-' => " − ",
                    _ => " + ",
                };
                format!("{}{sign}{}", left.write(put), right.write(put))
            }
            Self::Call(name, arguments) => {
                let all: Vec<String> = arguments.iter().map(|a| a.write(put)).collect();
                match (name.as_str(), all.as_slice()) {
                    ("sqrt", [x]) => format!("√({x})"),
                    ("sq", [x]) => format!("{}²", self.base(x)),
                    ("pow", [x, exponent]) => format!("{}^{exponent}", self.base(x)),
                    (name @ ("tan" | "sin" | "cos"), [x]) => format!("{name}({x}°)"),
                    (name, _) => format!("{name}({})", all.join(", ")),
                }
            }
        }
    }

    /// The base of a power: in brackets unless it is a single name or number.
    fn base(&self, text: &str) -> String {
        let single = text.chars().all(|c| c.is_alphanumeric() || matches!(c, '_' | '.'));
        if single { text.into() } else { format!("({text})") }
    }
}

struct Reader<'a> {
    rest: &'a str,
}

impl Reader<'_> {
    fn next_is(&mut self, signs: &[char]) -> Option<char> {
        self.rest = self.rest.trim_start();
        let first = self.rest.chars().next().filter(|c| signs.contains(c))?;
        self.rest = self.rest.get(first.len_utf8()..)?;
        Some(first)
    }

    fn sum(&mut self) -> Option<Expression> {
        let mut left = self.product()?;
        while let Some(sign) = self.next_is(&['+', '-']) {
            left = Expression::Pair(sign, Box::new(left), Box::new(self.product()?));
        }
        Some(left)
    }

    fn product(&mut self) -> Option<Expression> {
        let mut left = self.atom()?;
        while let Some(sign) = self.next_is(&['*', '/']) {
            left = Expression::Pair(sign, Box::new(left), Box::new(self.atom()?));
        }
        Some(left)
    }

    fn atom(&mut self) -> Option<Expression> {
        if self.next_is(&['-']).is_some() {
            return Some(Expression::Minus(Box::new(self.atom()?)));
        }
        if self.next_is(&['(']).is_some() {
            let inner = self.sum()?;
            self.next_is(&[')'])?;
            return Some(Expression::Brackets(Box::new(inner)));
        }
        let end = self.rest.find(|c: char| !(c.is_alphanumeric() || matches!(c, '_' | '.'))).unwrap_or(self.rest.len());
        let (word, rest) = self.rest.split_at(end);
        let first = word.chars().next()?;
        self.rest = rest;
        if first.is_ascii_digit() {
            return Some(Expression::Number(word.into()));
        }
        if self.next_is(&['(']).is_none() {
            return Some(Expression::Name(word.into()));
        }
        let mut arguments = vec![self.sum()?];
        while self.next_is(&[',']).is_some() {
            arguments.push(self.sum()?);
        }
        self.next_is(&[')'])?;
        Some(Expression::Call(word.into(), arguments))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_worked_as_printed() {
        let read = Expression::read("1000.0 * v / (PI * d) - sq(d) + pow(v, -0.5)").unwrap();
        let number = |name: &str| Some(if name == "v" { 25.0 } else { 38.1 });
        let wanted = 1000.0 * 25.0 / (std::f64::consts::PI * 38.1) - 38.1 * 38.1 + 0.2;
        assert!((read.value(&number).unwrap() - wanted).abs() < 1e-12);
        assert_eq!(read.write(&|_| None), "1000·v/(π·d) − d² + v^−0.5");
    }
}
