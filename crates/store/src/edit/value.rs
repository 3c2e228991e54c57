use super::error::EditError;

/// Lists in lists that are written: rows of a table are two deep.
const DEEPEST: usize = 4;

/// A value to be written.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A text, as a quantity with its unit: `12 deg`.
    Text(String),
    /// A whole number.
    Integer(i64),
    /// A number; whole ones are written without a point, which the reader takes alike.
    Number(f64),
    /// A list, as of numbers, of texts or of rows.
    List(Vec<Value>),
}

impl Value {
    /// A list of numbers.
    #[must_use]
    pub fn numbers(list: &[f64]) -> Self {
        Self::List(list.iter().map(|n| Self::Number(*n)).collect())
    }

    /// The value as TOML in one line.
    pub(super) fn toml(&self) -> Result<String, EditError> {
        let mut out = String::new();
        self.write(&mut out, 0)?;
        Ok(out)
    }

    fn write(&self, out: &mut String, depth: usize) -> Result<(), EditError> {
        match self {
            Self::Text(text) => out.push_str(&quoted(text)),
            Self::Integer(number) => out.push_str(&number.to_string()),
            Self::Number(number) => out.push_str(&decimal(*number)?),
            Self::List(list) => {
                if depth == DEEPEST {
                    return Err(EditError::TooDeep(DEEPEST));
                }
                out.push('[');
                for (i, value) in list.iter().enumerate() {
                    if i > 0 {
                        out.push_str(", ");
                    }
                    value.write(out, depth + 1)?;
                }
                out.push(']');
            }
        }
        Ok(())
    }
}

/// The shortest decimal that reads back as the same number.
fn decimal(number: f64) -> Result<String, EditError> {
    if !number.is_finite() {
        return Err(EditError::NotFinite(number.to_string()));
    }
    // Beyond this the whole numbers of the file would not hold the digits. -0 is 0.
    if number.fract() == 0.0 && number.abs() < 1e15 {
        return Ok(if number == 0.0 { "0".to_owned() } else { format!("{number:.0}") });
    }
    Ok(format!("{number:?}"))
}

/// A text on one line in double quotes, whatever it holds.
pub(super) fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\t' => out.push_str("\\t"),
            '\r' => out.push_str("\\r"),
            c if c.is_control() => out.push_str(&format!("\\u{:04X}", u32::from(c))),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// A key as it is written: bare where that is allowed.
pub(super) fn key(text: &str) -> String {
    let bare = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-');
    if !text.is_empty() && text.chars().all(bare) { text.to_owned() } else { quoted(text) }
}
