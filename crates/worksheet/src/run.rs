use quantity::{ParseError, Unit, parse, parse_number, show};
use working::{Assumption, Builder, Source, Working};

use crate::definition::{Input, Need, Range, Shape, Worksheet};
use crate::error::InputError;

/// The valid inputs of one run.
#[derive(Debug)]
pub struct Values {
    sheet: &'static Worksheet,
    values: Vec<Option<Value>>,
    assumptions: Vec<Assumption>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Value {
    Number(f64),
    Word(&'static str),
}

/// What a calculation returns: outputs by key (SI) and the working.
#[derive(Debug)]
pub struct Sheet {
    /// Output values in SI, keyed as the definition says; a choice or a state is a word.
    pub outputs: Vec<(&'static str, Out)>,
    /// How they were obtained.
    pub working: Working,
}

/// One output value.
#[derive(Debug, Clone, PartialEq)]
pub enum Out {
    /// A number in SI.
    Number(f64),
    /// A word, as which of two criteria governs.
    Word(&'static str),
}

/// Why a calculation refused valid-looking inputs: a key and what is wrong with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Failure {
    /// The key to change; empty when no single one is at fault.
    pub key: &'static str,
    /// What is wrong and what is allowed.
    pub message: String,
}

/// A finished worksheet.
#[derive(Debug)]
pub struct Worked {
    pub(crate) definition: &'static Worksheet,
    pub(crate) values: Vec<Option<Value>>,
    /// Output values.
    pub outputs: Vec<(&'static str, Out)>,
    /// How they were obtained.
    pub working: Working,
    /// Values nobody gave.
    pub assumptions: Vec<Assumption>,
}

/// Runs a worksheet on texts as a user writes them.
///
/// # Errors
/// All errors of the inputs at once.
pub fn evaluate<K: AsRef<str>, V: AsRef<str>>(
    sheet: &'static Worksheet,
    given: &[(K, V)],
) -> Result<Worked, Vec<InputError>> {
    let values = read(sheet, given)?;
    let Sheet { outputs, working } = (sheet.run)(&values)
        .map_err(|f| vec![InputError::Refused { key: f.key, message: f.message }])?;
    for output in sheet.outputs {
        match outputs.iter().find(|(k, _)| *k == output.key) {
            Some((_, Out::Number(v))) if !v.is_finite() => {
                let message = format!("{} has no finite value for these inputs", output.meaning);
                return Err(vec![InputError::Refused { key: "", message }]);
            }
            _ => {}
        }
    }
    if let Some(step) = working.steps.iter().find(|step| !step.value.is_finite()) {
        let message = format!("{} has no finite value for these inputs", step.meaning);
        return Err(vec![InputError::Refused { key: "", message }]);
    }
    let Values { values, assumptions, .. } = values;
    Ok(Worked { definition: sheet, values, outputs, working, assumptions })
}

fn read<K: AsRef<str>, V: AsRef<str>>(
    sheet: &'static Worksheet,
    given: &[(K, V)],
) -> Result<Values, Vec<InputError>> {
    let mut errors = Vec::new();
    let mut values = vec![None; sheet.inputs.len()];
    let mut seen = vec![false; sheet.inputs.len()];
    for (key, text) in given {
        let key = key.as_ref();
        let Some(index) = sheet.inputs.iter().position(|i| i.key == key) else {
            errors.push(unknown(sheet, key));
            continue;
        };
        let input = &sheet.inputs[index];
        if std::mem::replace(&mut seen[index], true) {
            errors.push(InputError::Twice { key: input.key });
            continue;
        }
        match read_one(input, text.as_ref()) {
            Ok(value) => values[index] = Some(value),
            Err(error) => errors.push(error),
        }
    }
    let mut assumptions = Vec::new();
    for (index, input) in sheet.inputs.iter().enumerate() {
        match input.need {
            Need::Required if !seen[index] => errors.push(missing(sheet, input)),
            Need::Default(text, why) if !seen[index] => match read_one(input, text) {
                Ok(value) => {
                    values[index] = Some(value);
                    assumptions.push(Assumption {
                        path: input.key.to_owned(),
                        meaning: input.meaning.to_owned(),
                        value: text.to_owned(),
                        source: why.clone(),
                    });
                }
                Err(error) => errors.push(error),
            },
            _ => {}
        }
    }
    if errors.is_empty() { Ok(Values { sheet, values, assumptions }) } else { Err(errors) }
}

fn read_one(input: &'static Input, text: &str) -> Result<Value, InputError> {
    match input.shape {
        Shape::Quantity(unit, range) => {
            let (si, written) = read_quantity(input, text, unit)
                .map_err(|error| InputError::Unreadable { key: input.key, error })?;
            if range.holds(si) {
                Ok(Value::Number(si))
            } else {
                let hint = forgotten_unit(text, unit, range, written);
                // Whoever forgot the unit thinks in the one in which the input is shown.
                let allowed = range.describe(if hint.is_empty() { written } else { unit });
                Err(InputError::OutOfRange {
                    key: input.key,
                    allowed,
                    found: show(si, written),
                    hint,
                })
            }
        }
        Shape::Choice(words) => words
            .iter()
            .find(|w| **w == text.trim())
            .map(|w| Value::Word(w))
            .ok_or_else(|| InputError::NotAChoice {
                key: input.key,
                allowed: words.iter().map(|w| format!("\"{w}\"")).collect::<Vec<_>>().join(" or "),
                found: text.to_owned(),
            }),
    }
}

/// Whether a number without unit would lie in the range if it had the unit in which the input is shown.
fn forgotten_unit(text: &str, shown: Unit, range: Range, bare: Unit) -> String {
    match parse_number(text) {
        Some(number) if shown != bare && range.holds(shown.to_si(number)) => {
            let (typed, unit) = (text.trim(), shown.symbol());
            let meant = match bare.symbol() {
                "" => "a fraction".to_owned(),
                symbol => format!("in {symbol}"),
            };
            format!("; a bare number is {meant}: write {typed}{unit}?")
        }
        _ => String::new(),
    }
}

fn read_quantity(input: &Input, text: &str, unit: Unit) -> Result<(f64, Unit), ParseError> {
    match (input.bare, parse_number(text)) {
        (Some(bare), Some(number)) if bare.to_si(number).is_finite() => {
            Ok((bare.to_si(number), bare))
        }
        (Some(_), Some(_)) => Err(ParseError::NotFinite { text: text.to_owned() }),
        _ => parse(text, unit.kind()),
    }
}

fn unknown(sheet: &'static Worksheet, key: &str) -> InputError {
    let keys = || sheet.inputs.iter().map(|i| i.key);
    let hint = match crate::nearest_of(key, keys()) {
        Some(near) => format!("did you mean \"{near}\"?"),
        None => format!("its inputs are {}", keys().collect::<Vec<_>>().join(", ")),
    };
    InputError::Unknown { sheet: sheet.id, key: key.to_owned(), hint }
}

fn missing(sheet: &'static Worksheet, input: &'static Input) -> InputError {
    let example = sheet.example.iter().find(|(k, _)| *k == input.key).map_or_else(
        || match input.shape {
            Shape::Quantity(unit, _) => format!("\"1 {}\"", unit.symbol()),
            Shape::Choice(words) => words.first().map(|w| (*w).to_owned()).unwrap_or_default(),
        },
        |(_, text)| format!("\"{text}\""),
    );
    InputError::Missing { key: input.key, meaning: input.meaning, example }
}

impl Values {
    fn index(&self, key: &str) -> Option<usize> {
        self.sheet.inputs.iter().position(|i| i.key == key)
    }

    fn value(&self, key: &str) -> Option<Value> {
        self.values[self.index(key)?]
    }

    /// The SI value of an input that was given or has a default; NaN for a key without value, which the tests of
    /// every worksheet refuse.
    #[must_use]
    pub fn si(&self, key: &str) -> f64 {
        self.optional(key).unwrap_or(f64::NAN)
    }

    /// The SI value of an input that may be missing.
    #[must_use]
    pub fn optional(&self, key: &str) -> Option<f64> {
        match self.value(key) {
            Some(Value::Number(v)) => Some(v),
            _ => None,
        }
    }

    /// The SI value of an input that this combination of choices needs.
    ///
    /// # Errors
    /// Names the key and why it is needed.
    pub fn needed(&self, key: &'static str, why: &str) -> Result<f64, Failure> {
        self.optional(key)
            .ok_or_else(|| Failure { key, message: format!("is missing: needed {why}") })
    }

    /// The chosen word of an input; empty for a key without value.
    #[must_use]
    pub fn word(&self, key: &str) -> &'static str {
        match self.value(key) {
            Some(Value::Word(w)) => w,
            _ => "",
        }
    }

    /// Opens a working with every quantity that was given or assumed, in order.
    #[must_use]
    pub fn open(&self) -> Builder {
        let mut builder = Builder::new();
        for (input, value) in self.sheet.inputs.iter().zip(&self.values) {
            if let (Shape::Quantity(unit, _), Some(Value::Number(v))) = (input.shape, value) {
                let source = self
                    .assumptions
                    .iter()
                    .find(|a| a.path == input.key)
                    .map_or_else(Source::given, |a| a.source.clone());
                builder.given_from(input.symbol, input.meaning, *v, unit, source);
            }
        }
        builder
    }
}

impl Sheet {
    /// A sheet whose outputs are all numbers.
    #[must_use]
    pub fn new(outputs: &[(&'static str, f64)], working: Builder) -> Self {
        Self {
            outputs: outputs.iter().map(|(k, v)| (*k, Out::Number(*v))).collect(),
            working: working.finish(),
        }
    }

    /// The same sheet with one more output that is a word.
    #[must_use]
    pub fn with_word(mut self, key: &'static str, word: &'static str) -> Self {
        self.outputs.push((key, Out::Word(word)));
        self
    }
}

impl Failure {
    /// A refusal that names the key to change.
    #[must_use]
    pub fn at(key: &'static str, message: impl std::fmt::Display) -> Self {
        Self { key, message: message.to_string() }
    }
}

impl Worked {
    /// The worksheet that was run.
    #[must_use]
    pub fn definition(&self) -> &'static Worksheet {
        self.definition
    }

    /// The SI value of an output.
    #[must_use]
    pub fn number(&self, key: &str) -> Option<f64> {
        self.outputs.iter().find(|(k, _)| *k == key).and_then(|(_, v)| match v {
            Out::Number(v) => Some(*v),
            Out::Word(_) => None,
        })
    }

    /// The word of an output.
    #[must_use]
    pub fn word(&self, key: &str) -> Option<&'static str> {
        self.outputs.iter().find(|(k, _)| *k == key).and_then(|(_, v)| match v {
            Out::Word(w) => Some(*w),
            Out::Number(_) => None,
        })
    }
}
