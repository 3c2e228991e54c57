//! Formulas as MathML, which browsers set like print.

use maud::{Markup, PreEscaped, html};
use working::expression::{Node, read};

/// A formula with its symbol on the left; plain text where it cannot be read.
pub fn equation(symbol: &str, formula: &str) -> Markup {
    match read(formula) {
        Ok(node) => html! {
            math display="block" {
                mrow { (name(symbol)) (PreEscaped("<mo>=</mo>")) (node_markup(&node, 0)) }
            }
        },
        Err(_) => html! { code { (symbol) " = " (formula) } },
    }
}

/// A symbol alone.
pub fn symbol(text: &str) -> Markup {
    html! { math { (name(text)) } }
}

fn element(tag: &str, text: &str) -> Markup {
    let escaped = html! { (text) }.into_string();
    PreEscaped(format!("<{tag}>{escaped}</{tag}>"))
}

fn wrapped(tag: &str, parts: &[Markup]) -> Markup {
    let inner: String = parts.iter().map(|p| p.0.as_str()).collect();
    PreEscaped(format!("<{tag}>{inner}</{tag}>"))
}

/// What stands after the first underscore of a symbol is its index; spelt Greek letters become letters.
fn name(text: &str) -> Markup {
    let (base, index) = text.split_once('_').unwrap_or((text, ""));
    let base = greek(base).unwrap_or(base);
    if index.is_empty() {
        return element("mi", base);
    }
    wrapped("msub", &[element("mi", base), element("mtext", &index.replace('_', ","))])
}

fn greek(word: &str) -> Option<&'static str> {
    const LETTERS: [(&str, &str); 20] = [
        ("alpha", "α"),
        ("beta", "β"),
        ("gamma", "γ"),
        ("delta", "δ"),
        ("epsilon", "ε"),
        ("eta", "η"),
        ("theta", "θ"),
        ("kappa", "κ"),
        ("lambda", "λ"),
        ("mu", "μ"),
        ("nu", "ν"),
        ("rho", "ρ"),
        ("sigma", "σ"),
        ("tau", "τ"),
        ("phi", "φ"),
        ("chi", "χ"),
        ("psi", "ψ"),
        ("omega", "ω"),
        ("pi", "π"),
        ("Delta", "Δ"),
    ];
    LETTERS.iter().find(|(w, _)| *w == word).map(|(_, letter)| *letter)
}

const fn rank(node: &Node) -> u8 {
    match node {
        Node::Binary('+' | '-', ..) => 1,
        Node::Negative(_) => 2,
        Node::Binary('*', ..) => 3,
        // A fraction bar and a raised exponent hold together by themselves.
        _ => 5,
    }
}

fn node_markup(node: &Node, lowest: u8) -> Markup {
    if rank(node) < lowest {
        return bracketed(node);
    }
    match node {
        Node::Number(_, text) => element("mn", text),
        Node::Symbol(text) => name(text),
        Node::Negative(a) => wrapped("mrow", &[element("mo", "−"), node_markup(a, 3)]),
        Node::Binary('/', a, b) => wrapped("mfrac", &[row(a), row(b)]),
        Node::Binary('^', a, b) => {
            let base = match a.as_ref() {
                Node::Number(..) | Node::Symbol(_) => node_markup(a, 0),
                other => bracketed(other),
            };
            wrapped("msup", &[base, row(b)])
        }
        Node::Binary(op, a, b) => {
            let (left, right) = if *op == '*' { (3, 4) } else { (1, 3) };
            // After a minus sign a sum needs brackets, a product does not.
            let right = if *op == '+' { 1 } else { right };
            let sign = match op {
                '*' => "·",
                '-' => "−",
                _ => "+",
            };
            wrapped("mrow", &[node_markup(a, left), element("mo", sign), node_markup(b, right)])
        }
        Node::Call(function, args) => call(function, args),
    }
}

fn row(node: &Node) -> Markup {
    wrapped("mrow", &[node_markup(node, 0)])
}

fn bracketed(node: &Node) -> Markup {
    wrapped("mrow", &[element("mo", "("), node_markup(node, 0), element("mo", ")")])
}

fn call(function: &str, args: &[Node]) -> Markup {
    match (function, args) {
        ("sqrt", [a]) => wrapped("msqrt", &[row(a)]),
        ("exp", [a]) => wrapped("msup", &[element("mi", "e"), row(a)]),
        ("abs", [a]) => {
            wrapped("mrow", &[element("mo", "|"), node_markup(a, 0), element("mo", "|")])
        }
        _ => {
            let mut parts = vec![element("mi", function), element("mo", "(")];
            for (i, arg) in args.iter().enumerate() {
                if i > 0 {
                    parts.push(element("mo", ","));
                }
                parts.push(node_markup(arg, 0));
            }
            parts.push(element("mo", ")"));
            wrapped("mrow", &parts)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn set(formula: &str) -> String {
        node_markup(&read(formula).unwrap(), 0).into_string()
    }

    #[test]
    fn fractions_roots_and_indexes_are_set() {
        assert_eq!(set("a/b"), "<mfrac><mrow><mi>a</mi></mrow><mrow><mi>b</mi></mrow></mfrac>");
        assert_eq!(
            set("sqrt(sigma_h)"),
            "<msqrt><mrow><msub><mi>σ</mi><mtext>h</mtext></msub></mrow></msqrt>"
        );
        assert_eq!(set("x^2"), "<msup><mi>x</mi><mrow><mn>2</mn></mrow></msup>");
    }

    #[test]
    fn brackets_stand_where_the_meaning_needs_them_and_nowhere_else() {
        let brackets = |formula: &str| set(formula).matches("<mo>(</mo>").count();
        assert_eq!(brackets("a - (b + c)"), 1);
        assert_eq!(brackets("a - (b - c)"), 1);
        assert_eq!(brackets("a + (b + c)"), 0);
        assert_eq!(brackets("(a + b)*c"), 1);
        assert_eq!(brackets("(a + b)/c"), 0);
        assert_eq!(brackets("(-a)^2"), 1);
        assert_eq!(brackets("a*(b/c)"), 0);
        assert_eq!(brackets("a - b*c"), 0);
    }

    #[test]
    fn a_formula_that_cannot_be_read_stays_text() {
        let markup = equation("a<b", "<script>").into_string();
        assert!(markup.contains("a&lt;b = &lt;script&gt;"), "{markup}");
    }
}
