use quantity::Kind;
use toml::Table;
use worksheet::InputError;

use super::arguments::text_of;
use super::{beam, joint_data, path, pipe_data, survey};

/// What a method returned, by key. A worksheet returns its outputs and, as `working.` with the symbol behind it, every
/// step of its working.
pub type Answer = Vec<(String, Value)>;

/// One value of an answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A number in the SI unit of its kind.
    Number(f64, Kind),
    /// A word.
    Word(String),
}

/// Why a method refused its inputs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MethodFailure {
    /// Stable code.
    pub code: String,
    /// Key at fault; empty when no single one is.
    pub key: String,
    /// For a person.
    pub message: String,
}

impl MethodFailure {
    /// A failure at a key.
    pub fn new(code: &str, key: &str, message: impl Into<String>) -> Self {
        Self { code: code.to_owned(), key: key.to_owned(), message: message.into() }
    }
}

/// Before the symbol of a step of a working in an answer.
pub(super) const WORKING: &str = "working.";

type Run = fn(&Table) -> Result<Answer, Vec<MethodFailure>>;

/// Methods of cases that are not worksheets, with what they do.
pub const OTHER_METHODS: &[(&str, &str, Run)] = &[
    ("soft-string-path", "march of a soft string along a path of straights and arcs", path::soft),
    ("stiff-path", "stiff-pipe method along a path of straights and arcs", path::stiff),
    ("survey-positions", "position at a measured distance of a surveyed line", survey::positions),
    ("pipe", "data of one pipe of a standard", pipe_data::pipe),
    ("joint", "what the tables state on the joints of one size", joint_data::joint),
    ("maker-angles", "one maker's published angles of joints of one size", joint_data::angles),
    ("tension-beam", "deflection of a beam under tension", beam::midpoint),
];

/// Runs a worksheet or another method; `None` when there is no method of this name.
#[must_use]
pub fn run_method(method: &str, given: &Table) -> Option<Result<Answer, Vec<MethodFailure>>> {
    if let Some((_, _, run)) = OTHER_METHODS.iter().find(|(name, ..)| *name == method) {
        return Some(run(given));
    }
    worksheet::find(method).map(|sheet| run_worksheet(sheet, given))
}

fn run_worksheet(
    sheet: &'static worksheet::Worksheet,
    given: &Table,
) -> Result<Answer, Vec<MethodFailure>> {
    let texts: Vec<_> = given.iter().map(|(key, value)| (key.as_str(), text_of(value))).collect();
    let worked = worksheet::evaluate(sheet, &texts)
        .map_err(|errors| errors.iter().map(failure).collect::<Vec<_>>())?;
    let value = |output: &worksheet::Output| {
        let number = worked.number(output.key).map(|n| Value::Number(n, output.unit.kind()));
        let word = || worked.word(output.key).map(|w| Value::Word(w.to_owned()));
        number.or_else(word).map(|value| (output.key.to_owned(), value))
    };
    let step = |step: &working::Step| {
        (format!("{WORKING}{}", step.symbol), Value::Number(step.value, step.unit.kind()))
    };
    Ok(sheet
        .outputs
        .iter()
        .filter_map(value)
        .chain(worked.working.steps.iter().map(step))
        .collect())
}

fn failure(error: &InputError) -> MethodFailure {
    MethodFailure::new(error.code(), error.key(), error.to_string())
}
