//! Formulas of workings in the notation of spreadsheets.
//!
//! Two habits of spreadsheets differ from ours and are met by parentheses and order: a sign binds closer than a power there
//! (`-2^2` is 4), and the arctangent of two arguments takes x first.

use std::fmt::Write;

use working::expression::{Node, read};

/// The formula with each symbol replaced by the cell that `cell` names; `None` where it cannot be read or a symbol is not
/// known.
pub fn translate(text: &str, cell: &dyn Fn(&str) -> Option<String>) -> Option<String> {
    of_node(&read(text).ok()?, cell)
}

/// As [`translate`], of a tree.
pub fn of_node(node: &Node, cell: &dyn Fn(&str) -> Option<String>) -> Option<String> {
    let mut out = String::new();
    write(node, 0, cell, &mut out)?;
    // The format holds no longer formula.
    (out.len() < 8_000).then_some(out)
}

fn rank(node: &Node) -> u8 {
    match node {
        Node::Binary('+' | '-', ..) => 1,
        Node::Binary('*' | '/', ..) => 2,
        Node::Binary(..) => 3,
        // Always in parentheses, unless it is the whole formula or an argument.
        Node::Negative(_) => 1,
        Node::Number(value, _) if value.is_sign_negative() => 1,
        _ => 4,
    }
}

fn write(
    node: &Node,
    lowest: u8,
    cell: &dyn Fn(&str) -> Option<String>,
    out: &mut String,
) -> Option<()> {
    if rank(node) < lowest {
        out.push('(');
        write(node, 0, cell, out)?;
        out.push(')');
        return Some(());
    }
    match node {
        Node::Number(value, _) => {
            if !value.is_finite() {
                return None;
            }
            write!(out, "{value}").ok()?;
        }
        Node::Symbol(symbol) if symbol == "pi" => out.push_str("PI()"),
        Node::Symbol(symbol) => out.push_str(&cell(symbol)?),
        Node::Negative(of) => {
            out.push('-');
            write(of, 4, cell, out)?;
        }
        Node::Binary(sign, left, right) => {
            let (l, r) = match sign {
                '+' => (1, 1),
                '-' => (1, 2),
                '*' => (2, 2),
                '/' => (2, 3),
                _ => (4, 4),
            };
            // A sign stands in parentheses wherever it is a part.
            let l = if matches!(**left, Node::Negative(_)) { 4 } else { l };
            let r = if matches!(**right, Node::Negative(_)) { 4 } else { r };
            write(left, l, cell, out)?;
            out.push(*sign);
            write(right, r, cell, out)?;
        }
        Node::Call(name, arguments) => call(name, arguments, cell, out)?,
    }
    Some(())
}

fn call(
    name: &str,
    arguments: &[Node],
    cell: &dyn Fn(&str) -> Option<String>,
    out: &mut String,
) -> Option<()> {
    let list: Vec<String> =
        arguments.iter().map(|a| of_node(a, cell)).collect::<Option<Vec<_>>>()?;
    let theirs = match name {
        "sin" | "cos" | "tan" | "asin" | "atan" | "sinh" | "cosh" | "tanh" | "exp" | "ln"
        | "log10" | "sqrt" | "abs" | "min" | "max" => name.to_ascii_uppercase(),
        "atan2" => {
            let [y, x] = list.as_slice() else { return None };
            // Ours is 0 at the origin, where theirs is an error.
            write!(out, "IF(AND({x}=0,{y}=0),0,ATAN2({x},{y}))").ok()?;
            return Some(());
        }
        _ => return None,
    };
    write!(out, "{theirs}({})", list.join(",")).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> String {
        translate(text, &|s| (s != "unknown").then(|| format!("{}1", s.to_uppercase())))
            .unwrap_or_else(|| "none".to_owned())
    }

    #[test]
    fn the_meaning_is_kept_in_the_other_notation() {
        assert_eq!(of("-a^2"), "-(A1^2)");
        assert_eq!(of("b - -a^2"), "B1-(-(A1^2))");
        assert_eq!(of("(-a)^2"), "(-A1)^2");
        assert_eq!(of("-a*b"), "(-A1)*B1");
        assert_eq!(of("a^b^c"), "A1^(B1^C1)");
        assert_eq!(of("a - (b - c)"), "A1-(B1-C1)");
        assert_eq!(of("a/(b*c)"), "A1/(B1*C1)");
        assert_eq!(of("a/b/c"), "A1/B1/C1");
        assert_eq!(of("2^-1"), "2^(-1)");
        assert_eq!(of("pi*ln(a) + log10(b)"), "PI()*LN(A1)+LOG10(B1)");
        assert_eq!(of("atan2(y, x)"), "IF(AND(X1=0,Y1=0),0,ATAN2(X1,Y1))");
        assert_eq!(of("max(a + 1, 1e-3)"), "MAX(A1+1,0.001)");
        assert_eq!(of("unknown"), "none");
        assert_eq!(of("1 +"), "none");
    }

    #[test]
    fn every_function_of_the_notation_is_known() {
        for (name, count) in working::expression::FUNCTIONS {
            let arguments = vec!["a"; *count].join(", ");
            assert_ne!(of(&format!("{name}({arguments})")), "none", "{name}");
        }
    }
}
