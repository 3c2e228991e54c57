//! From the notation of formulas to a tree that the template sets as mathematics.
//!
//! The template has no formula of its own: it walks this tree. Every leaf is a text that it shows, so that nothing in a
//! formula can become code.

use serde_json::{Value, json};
use working::expression::Node;

/// Greek letters by the names that formulas use.
const GREEK: &[(&str, &str)] = &[
    ("alpha", "α"),
    ("beta", "β"),
    ("gamma", "γ"),
    ("delta", "δ"),
    ("epsilon", "ε"),
    ("eps", "ε"),
    ("zeta", "ζ"),
    ("eta", "η"),
    ("theta", "θ"),
    ("kappa", "κ"),
    ("lambda", "λ"),
    ("mu", "μ"),
    ("nu", "ν"),
    ("xi", "ξ"),
    ("pi", "π"),
    ("rho", "ρ"),
    ("sigma", "σ"),
    ("tau", "τ"),
    ("phi", "φ"),
    ("chi", "χ"),
    ("psi", "ψ"),
    ("omega", "ω"),
    ("Gamma", "Γ"),
    ("Delta", "Δ"),
    ("Theta", "Θ"),
    ("Lambda", "Λ"),
    ("Sigma", "Σ"),
    ("Phi", "Φ"),
    ("Psi", "Ψ"),
    ("Omega", "Ω"),
];

/// How tightly the parts of a formula hold together, as in the notation.
fn rank(node: &Node) -> u8 {
    match node {
        Node::Binary('+' | '-', ..) => 1,
        Node::Negative(_) => 2,
        Node::Binary('*', ..) => 3,
        Node::Binary('/', ..) => 4,
        Node::Binary(..) => 5,
        Node::Number(_, text) if text.contains(['e', 'E']) => 3,
        _ => 6,
    }
}

/// A formula with its symbols, or with numbers where `numbers` knows one.
pub(crate) fn tree(node: &Node, numbers: &dyn Fn(&str) -> Option<String>) -> Value {
    Tree { numbers }.of(node)
}

/// A symbol: its letter, and what stands below it.
pub(crate) fn symbol(name: &str) -> Value {
    let (base, below) = match name.split_once('_') {
        Some((base, below)) => (base, below.replace('_', ", ")),
        None => {
            let base = name.trim_end_matches(|c: char| c.is_ascii_digit());
            if base.chars().count() == 1 {
                (base, name[base.len()..].to_owned())
            } else {
                (name, String::new())
            }
        }
    };
    let base = GREEK.iter().find(|(word, _)| *word == base).map_or(base, |(_, letter)| letter);
    json!({ "k": "symbol", "base": base, "below": below })
}

fn sign(text: &str) -> Value {
    json!({ "k": "sign", "text": text })
}

fn row(parts: Vec<Value>) -> Value {
    json!({ "k": "row", "parts": parts })
}

struct Tree<'a> {
    numbers: &'a dyn Fn(&str) -> Option<String>,
}

impl Tree<'_> {
    fn of(&self, node: &Node) -> Value {
        match node {
            Node::Number(_, text) => number(text),
            Node::Symbol(name) if name == "pi" => symbol("pi"),
            Node::Symbol(name) => match (self.numbers)(name) {
                Some(text) => number(&text),
                None => symbol(name),
            },
            Node::Negative(a) => row(vec![sign("−"), self.at_least(a, 3)]),
            Node::Binary('+', a, b) => row(vec![self.of(a), sign("+"), self.at_least(b, 3)]),
            Node::Binary('-', a, b) => row(vec![self.of(a), sign("−"), self.at_least(b, 3)]),
            Node::Binary('*', a, b) => {
                row(vec![self.at_least(a, 3), sign("·"), self.at_least(b, 3)])
            }
            Node::Binary('/', a, b) => {
                json!({ "k": "fraction", "above": self.of(a), "below": self.of(b) })
            }
            Node::Binary(_, a, b) => {
                json!({ "k": "power", "base": self.at_least(a, 6), "above": self.of(b) })
            }
            Node::Call(name, parts) => self.call(name, parts),
        }
    }

    fn call(&self, name: &str, parts: &[Node]) -> Value {
        match (name, parts) {
            ("sqrt", [a]) => json!({ "k": "root", "of": self.of(a) }),
            ("abs", [a]) => json!({ "k": "size", "of": self.of(a) }),
            ("exp", [a]) => json!({ "k": "power", "base": symbol("e"), "above": self.of(a) }),
            _ => {
                let (name, below) = match name {
                    "asin" => ("arcsin", ""),
                    "atan" => ("arctan", ""),
                    "atan2" => ("arctan", "2"),
                    "log10" => ("log", "10"),
                    other => (other, ""),
                };
                let list: Vec<Value> = parts.iter().map(|part| self.of(part)).collect();
                json!({
                    "k": "call", "name": name, "below": below, "parts": list,
                    "tall": parts.iter().any(|part| self.is_tall(part)),
                })
            }
        }
    }

    /// A part of a formula, in brackets where it holds together less tightly than its place needs. A number put in for a
    /// symbol may be negative, which only brackets keep in its place.
    fn at_least(&self, node: &Node, lowest: u8) -> Value {
        let put_in = match node {
            Node::Symbol(name) if name != "pi" => (self.numbers)(name),
            _ => None,
        };
        let held = put_in.map_or_else(
            || rank(node),
            |text| if text.starts_with('-') { 2 } else { rank(&Node::Number(0.0, text)) },
        );
        let shown = self.of(node);
        // The base of a power is a call in brackets already, but a root or exponential is not.
        let loose_call =
            lowest == 6 && matches!(node, Node::Call(name, _) if name == "exp" || name == "sqrt");
        if held < lowest || loose_call {
            return json!({ "k": "brackets", "of": shown, "tall": self.is_tall(node) });
        }
        shown
    }

    /// Whether a part is higher than a line, so that its brackets must grow.
    fn is_tall(&self, node: &Node) -> bool {
        match node {
            Node::Number(..) | Node::Symbol(_) => false,
            Node::Binary('/', ..) => true,
            Node::Binary(_, a, b) => self.is_tall(a) || self.is_tall(b),
            Node::Negative(a) => self.is_tall(a),
            Node::Call(name, parts) => {
                name == "sqrt" || parts.iter().any(|part| self.is_tall(part))
            }
        }
    }
}

/// A number; one with an exponent as a power of ten.
pub(crate) fn number(text: &str) -> Value {
    let (positive, negative) = match text.strip_prefix('-') {
        Some(rest) => (rest, true),
        None => (text, false),
    };
    let shown = match positive.split_once(['e', 'E']) {
        Some((digits, exponent)) => row(vec![
            json!({ "k": "number", "text": digits }),
            sign("·"),
            json!({
                "k": "power",
                "base": { "k": "number", "text": "10" },
                "above": number(exponent.trim_start_matches('+')),
            }),
        ]),
        None => json!({ "k": "number", "text": positive }),
    };
    if negative { row(vec![sign("−"), shown]) } else { shown }
}

#[cfg(test)]
mod tests {
    use working::expression;

    use super::*;

    /// The tree as a line, with every bracket that a reader sees.
    fn line(node: &Value) -> String {
        let at = |key: &str| node.get(key).map(line).unwrap_or_default();
        let word = |key: &str| node.get(key).and_then(Value::as_str).unwrap_or_default();
        let list = |join: &str| {
            let parts = node.get("parts").and_then(Value::as_array).cloned().unwrap_or_default();
            parts.iter().map(line).collect::<Vec<_>>().join(join)
        };
        match word("k") {
            "number" | "sign" => word("text").to_owned(),
            "symbol" if word("below").is_empty() => word("base").to_owned(),
            "symbol" => format!("{}_{}", word("base"), word("below")),
            "row" => list(" "),
            "fraction" => format!("{{{}}}/{{{}}}", at("above"), at("below")),
            "power" => format!("{}^{{{}}}", at("base"), at("above")),
            "root" => format!("√{{{}}}", at("of")),
            "size" => format!("|{}|", at("of")),
            "brackets" => format!("({})", at("of")),
            "call" => format!("{}({})", word("name"), list(", ")),
            other => panic!("no such part: {other}"),
        }
    }

    fn with_symbols(text: &str) -> String {
        line(&tree(&expression::read(text).unwrap(), &|_| None))
    }

    #[test]
    fn brackets_stand_where_the_meaning_needs_them_and_nowhere_else() {
        assert_eq!(with_symbols("a - (b - c)*d"), "a − (b − c) · d");
        assert_eq!(with_symbols("(a + b)/(c*d)"), "{a + b}/{c · d}");
        assert_eq!(with_symbols("(a/b)^2"), "({a}/{b})^{2}");
        assert_eq!(with_symbols("-a^2 + b"), "− a^{2} + b");
        assert_eq!(with_symbols("exp(mu*theta)^2"), "(e^{μ · θ})^{2}");
        assert_eq!(with_symbols("mu*abs(w)*L"), "μ · |w| · L");
        assert_eq!(with_symbols("2*asin(min(a/(2*R), 1))"), "2 · arcsin(min({a}/{2 · R}, 1))");
        assert_eq!(with_symbols("tan(pi/4 + phi/2)^2"), "tan({π}/{4} + {φ}/{2})^{2}");
        assert_eq!(with_symbols("sqrt(K_p)"), "√{K_p}");
    }

    #[test]
    fn numbers_put_in_keep_sign_and_power_of_ten_in_their_place() {
        let put = |text: &str| {
            let number = |name: &str| {
                Some(if name == "w" { "-1.5".to_owned() } else { "1.7e11".to_owned() })
            };
            line(&tree(&expression::read(text).unwrap(), &number))
        };
        assert_eq!(put("a - w"), "1.7 · 10^{11} − (− 1.5)");
        assert_eq!(put("w^2"), "(− 1.5)^{2}");
        assert_eq!(put("a^2"), "(1.7 · 10^{11})^{2}");
        assert_eq!(put("w/a"), "{− 1.5}/{1.7 · 10^{11}}");
        assert_eq!(put("pi*w"), "π · (− 1.5)");
    }

    #[test]
    fn names_become_letters_with_what_stands_below() {
        let shown = |name: &str| line(&symbol(name));
        assert_eq!(shown("sigma_h"), "σ_h");
        assert_eq!(shown("F_drag"), "F_drag");
        assert_eq!(shown("T1"), "T_1");
        assert_eq!(shown("δ"), "δ");
        assert_eq!(shown("MDP"), "MDP");
        assert_eq!(shown("eps"), "ε");
        assert_eq!(shown("a_b_c"), "a_b, c");
    }
}
