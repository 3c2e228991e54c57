//! The notation of formulas: numbers, symbols, `+ - * / ^`, parentheses and a few functions.
//!
//! ```text
//! sum     = product (("+" | "-") product)*
//! product = sign (("*" | "/") sign)*
//! sign    = "-" sign | power
//! power   = atom ("^" sign)?
//! atom    = number | symbol | function "(" sum ("," sum)* ")" | "(" sum ")"
//! ```
//! Symbols are letters (Greek ones too), digits and underscores. `pi` is known. Angles are radians, all values SI.

use std::fmt;

/// A formula as a tree, for those who set it in type or translate it to another notation.
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    /// A number with its text.
    Number(f64, String),
    /// A symbol.
    Symbol(String),
    /// A sign change.
    Negative(Box<Node>),
    /// Two values joined by `+`, `-`, `*`, `/` or `^`.
    Binary(char, Box<Node>, Box<Node>),
    /// A function of [`FUNCTIONS`].
    Call(String, Vec<Node>),
}

/// Why a formula cannot be read or evaluated.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ExpressionError {
    /// The text does not follow the notation.
    #[error("cannot read \"{text}\" at character {at}: {what}")]
    Syntax {
        /// The whole text.
        text: String,
        /// Character where reading stopped, from 1.
        at: usize,
        /// What was expected.
        what: &'static str,
    },
    /// A symbol has no value.
    #[error("symbol \"{0}\" has no value")]
    Unknown(String),
    /// A function does not exist or has another number of arguments.
    #[error("no function \"{0}\" with {1} arguments")]
    Function(String, usize),
}

/// Functions of the notation with their number of arguments.
pub const FUNCTIONS: &[(&str, usize)] = &[
    ("sin", 1),
    ("cos", 1),
    ("tan", 1),
    ("asin", 1),
    ("atan", 1),
    ("atan2", 2),
    ("sinh", 1),
    ("cosh", 1),
    ("tanh", 1),
    ("exp", 1),
    ("ln", 1),
    ("log10", 1),
    ("sqrt", 1),
    ("abs", 1),
    ("min", 2),
    ("max", 2),
];

/// Reads a formula.
///
/// # Errors
/// [`ExpressionError::Syntax`] with the place.
pub fn read(text: &str) -> Result<Node, ExpressionError> {
    let mut reader = Reader { text, chars: text.chars().collect(), at: 0, depth: 0 };
    let node = reader.sum()?;
    reader.skip();
    if reader.at == reader.chars.len() { Ok(node) } else { Err(reader.error("end of formula")) }
}

/// Evaluates a formula with values for its symbols.
///
/// # Errors
/// As [`read`], and for symbols without a value.
pub fn evaluate(text: &str, lookup: impl Fn(&str) -> Option<f64>) -> Result<f64, ExpressionError> {
    value(&read(text)?, &lookup)
}

/// The formula's text with each symbol replaced by `lookup`.
///
/// # Errors
/// As [`read`], and for symbols without a value.
pub fn substitute(
    text: &str,
    lookup: impl Fn(&str) -> Option<String>,
) -> Result<String, ExpressionError> {
    fn replace(
        node: &Node,
        lookup: &dyn Fn(&str) -> Option<String>,
    ) -> Result<Node, ExpressionError> {
        Ok(match node {
            Node::Number(..) => node.clone(),
            Node::Symbol(s) if s == "pi" => node.clone(),
            Node::Symbol(s) => {
                let number = lookup(s).ok_or_else(|| ExpressionError::Unknown(s.clone()))?;
                match number.strip_prefix('-') {
                    Some(positive) => {
                        Node::Negative(Box::new(Node::Number(f64::NAN, positive.to_owned())))
                    }
                    None => Node::Number(f64::NAN, number),
                }
            }
            Node::Negative(a) => Node::Negative(Box::new(replace(a, lookup)?)),
            Node::Binary(op, a, b) => {
                Node::Binary(*op, Box::new(replace(a, lookup)?), Box::new(replace(b, lookup)?))
            }
            Node::Call(name, args) => Node::Call(
                name.clone(),
                args.iter().map(|a| replace(a, lookup)).collect::<Result<_, _>>()?,
            ),
        })
    }
    Ok(replace(&read(text)?, &lookup)?.to_string())
}

fn value(node: &Node, lookup: &dyn Fn(&str) -> Option<f64>) -> Result<f64, ExpressionError> {
    Ok(match node {
        Node::Number(v, _) => *v,
        Node::Symbol(s) if s == "pi" => std::f64::consts::PI,
        Node::Symbol(s) => lookup(s).ok_or_else(|| ExpressionError::Unknown(s.clone()))?,
        Node::Negative(a) => -value(a, lookup)?,
        Node::Binary(op, a, b) => {
            let (a, b) = (value(a, lookup)?, value(b, lookup)?);
            match op {
                '+' => a + b,
                '-' => a - b,
                '*' => a * b,
                '/' => a / b,
                _ => a.powf(b),
            }
        }
        Node::Call(name, args) => {
            let v = args.iter().map(|a| value(a, lookup)).collect::<Result<Vec<_>, _>>()?;
            match (name.as_str(), v.as_slice()) {
                ("sin", [x]) => x.sin(),
                ("cos", [x]) => x.cos(),
                ("tan", [x]) => x.tan(),
                ("asin", [x]) => x.asin(),
                ("atan", [x]) => x.atan(),
                ("atan2", [y, x]) => y.atan2(*x),
                ("sinh", [x]) => x.sinh(),
                ("cosh", [x]) => x.cosh(),
                ("tanh", [x]) => x.tanh(),
                ("exp", [x]) => x.exp(),
                ("ln", [x]) => x.ln(),
                ("log10", [x]) => x.log10(),
                ("sqrt", [x]) => x.sqrt(),
                ("abs", [x]) => x.abs(),
                ("min", [x, y]) => x.min(*y),
                ("max", [x, y]) => x.max(*y),
                _ => return Err(ExpressionError::Function(name.clone(), v.len())),
            }
        }
    })
}

/// Deepest nesting that is read; formulas of this project stay below ten.
const MAX_DEPTH: usize = 64;

struct Reader<'a> {
    text: &'a str,
    chars: Vec<char>,
    at: usize,
    depth: usize,
}

impl Reader<'_> {
    fn error(&self, what: &'static str) -> ExpressionError {
        ExpressionError::Syntax { text: self.text.to_owned(), at: self.at + 1, what }
    }

    fn skip(&mut self) {
        while self.chars.get(self.at).is_some_and(|c| c.is_whitespace()) {
            self.at += 1;
        }
    }

    fn take(&mut self, wanted: &[char]) -> Option<char> {
        self.skip();
        let c = *self.chars.get(self.at)?;
        wanted.contains(&c).then(|| {
            self.at += 1;
            c
        })
    }

    fn sum(&mut self) -> Result<Node, ExpressionError> {
        self.depth += 1;
        if self.depth > MAX_DEPTH {
            return Err(self.error("less nesting"));
        }
        let mut left = self.product()?;
        while let Some(op) = self.take(&['+', '-']) {
            left = Node::Binary(op, Box::new(left), Box::new(self.product()?));
        }
        self.depth -= 1;
        Ok(left)
    }

    fn product(&mut self) -> Result<Node, ExpressionError> {
        let mut left = self.sign()?;
        while let Some(op) = self.take(&['*', '/']) {
            left = Node::Binary(op, Box::new(left), Box::new(self.sign()?));
        }
        Ok(left)
    }

    fn sign(&mut self) -> Result<Node, ExpressionError> {
        self.depth += 1;
        if self.depth > MAX_DEPTH {
            return Err(self.error("less nesting"));
        }
        let node = if self.take(&['-']).is_some() {
            Node::Negative(Box::new(self.sign()?))
        } else {
            self.power()?
        };
        self.depth -= 1;
        Ok(node)
    }

    fn power(&mut self) -> Result<Node, ExpressionError> {
        let base = self.atom()?;
        if self.take(&['^']).is_some() {
            return Ok(Node::Binary('^', Box::new(base), Box::new(self.sign()?)));
        }
        Ok(base)
    }

    fn atom(&mut self) -> Result<Node, ExpressionError> {
        if self.take(&['(']).is_some() {
            let inner = self.sum()?;
            return self.take(&[')']).map(|_| inner).ok_or_else(|| self.error("\")\""));
        }
        let start = self.at;
        let is_number = |c: char| c.is_ascii_digit() || c == '.';
        while let Some(&c) = self.chars.get(self.at) {
            let exponent_sign = matches!(c, '+' | '-')
                && self.at > start
                && matches!(self.chars[self.at - 1], 'e' | 'E')
                && is_number(self.chars[start]);
            if !(c.is_alphanumeric() || c == '_' || c == '.' || exponent_sign) {
                break;
            }
            self.at += 1;
        }
        let word: String = self.chars[start..self.at].iter().collect();
        if word.is_empty() {
            return Err(self.error("a number, a symbol or \"(\""));
        }
        if word.starts_with(is_number) {
            let number = word.parse().map_err(|_| self.error("a number"))?;
            return Ok(Node::Number(number, word));
        }
        if self.take(&['(']).is_none() {
            return Ok(Node::Symbol(word));
        }
        let mut args = vec![self.sum()?];
        while self.take(&[',']).is_some() {
            args.push(self.sum()?);
        }
        if self.take(&[')']).is_none() {
            return Err(self.error("\")\""));
        }
        if FUNCTIONS.contains(&(word.as_str(), args.len())) {
            Ok(Node::Call(word, args))
        } else {
            Err(ExpressionError::Function(word, args.len()))
        }
    }
}

impl Node {
    fn rank(&self) -> u8 {
        match self {
            Node::Binary('+' | '-', ..) => 1,
            Node::Negative(_) => 2,
            Node::Binary('*' | '/', ..) => 3,
            Node::Binary(..) => 4,
            _ => 5,
        }
    }

    fn write(&self, f: &mut fmt::Formatter<'_>, lowest: u8) -> fmt::Result {
        if self.rank() < lowest {
            write!(f, "(")?;
            self.write(f, 0)?;
            return write!(f, ")");
        }
        match self {
            Node::Number(_, text) | Node::Symbol(text) => f.write_str(text),
            Node::Negative(a) => {
                write!(f, "-")?;
                a.write(f, 3)
            }
            Node::Binary(op, a, b) => {
                let (left, right, gap) = match op {
                    '+' => (1, 3, " "),
                    '-' => (1, 3, " "),
                    '*' => (3, 3, " "),
                    '/' => (3, 4, " "),
                    _ => (5, 5, ""),
                };
                a.write(f, left)?;
                let sign = if *op == '*' { '·' } else { *op };
                write!(f, "{gap}{sign}{gap}")?;
                b.write(f, right)
            }
            Node::Call(name, args) => {
                write!(f, "{name}(")?;
                for (i, a) in args.iter().enumerate() {
                    if i > 0 {
                        write!(f, ", ")?;
                    }
                    a.write(f, 0)?;
                }
                write!(f, ")")
            }
        }
    }
}

/// Prints with the fewest parentheses that keep the meaning.
impl fmt::Display for Node {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, 0)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn eval(text: &str) -> f64 {
        evaluate(text, |s| match s {
            "a" => Some(6.0),
            "δ" => Some(0.05),
            _ => None,
        })
        .unwrap()
    }

    #[test]
    fn arithmetic_follows_the_usual_ranks() {
        assert_eq!(eval("2 + 3*4^2/8 - -1"), 9.0);
        assert_eq!(eval("-2^2"), -4.0);
        assert_eq!(eval("2^-1"), 0.5);
        assert_eq!(eval("10 - 3 - 2"), 5.0);
        assert_eq!(eval("8/4/2"), 1.0);
        assert_eq!(eval("1.5e3 + max(1, 2)"), 1502.0);
        approx::assert_relative_eq!(eval("a/(2*sin(δ/2))"), 6.0 / (2.0 * 0.025f64.sin()));
    }

    #[test]
    fn errors_name_the_place_or_the_symbol() {
        assert_eq!(evaluate("b", |_| None), Err(ExpressionError::Unknown("b".into())));
        assert!(matches!(read("2 +"), Err(ExpressionError::Syntax { at: 4, .. })));
        assert!(matches!(read("sin(1, 2)"), Err(ExpressionError::Function(_, 2))));
        assert!(read(&"(".repeat(1000)).is_err());
        assert!(read(&"-".repeat(1000)).is_err());
    }

    #[test]
    fn numbers_replace_symbols_and_the_sign_keeps_its_place() {
        let put = |s: &str| Some(if s == "w" { "-1.5".into() } else { "2".to_owned() });
        assert_eq!(substitute("a - w*a", put).unwrap(), "2 - (-1.5) · 2");
        assert_eq!(substitute("(a + w)/a^2", put).unwrap(), "(2 + (-1.5)) / 2^2");
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused_without_panic(text in "\\PC{0,40}") {
            let _ = read(&text);
        }

        #[test]
        fn printing_a_formula_keeps_its_value(text in "[1-9]([-+*/][1-9]|\\^2|[-+*/]\\([1-9][-+*/][1-9]\\)){0,6}") {
            let printed = read(&text).unwrap().to_string().replace('·', "*");
            let (a, b) = (eval(&text), eval(&printed));
            prop_assert!(a == b || (a.is_nan() && b.is_nan()) || (a - b).abs() < 1e-9 * a.abs(), "{text} became {printed}");
        }
    }
}
