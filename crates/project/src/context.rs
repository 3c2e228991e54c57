//! What the builders of the parts of a project share: messages, assumptions, and access to records.

use std::collections::BTreeSet;

use toml::de::DeValue;
use working::{Assumption, Source};

use crate::diagnostic::{Place, Report};
use crate::fields::{Fallback, Field, Need, Technique};
use crate::given::Given;
use crate::tree::{Record, in_section};
use crate::value::{Reading, read_value};
use crate::wording::shown;

/// Gives the bytes of a file that stands beside the crossing file, by the name written there; else says why not.
pub type Load<'a> = &'a dyn Fn(&str) -> Result<Vec<u8>, String>;

/// Gives no file: what is said where none can be read beside the crossing file.
///
/// # Errors
/// Always.
pub fn no_files(_: &str) -> Result<Vec<u8>, String> {
    Err("the crossing was not read from a folder, so that no file stands beside it".to_owned())
}

/// State of one reading.
pub(crate) struct Context<'a> {
    pub(crate) report: Report<'a>,
    /// Gives the bytes of a file that the crossing file names.
    pub(crate) load: Load<'a>,
    pub(crate) technique: Technique,
    assumptions: Vec<(usize, Assumption)>,
    /// Section and key of everything that was asked for; a test holds it against the definitions.
    pub(crate) consumed: BTreeSet<(&'static str, &'static str)>,
}

/// A record with the context that notes what is asked of it.
pub(crate) struct Ask<'c, 'r, 'a> {
    cx: &'c mut Context<'a>,
    pub(crate) record: &'r Record,
}

impl<'a> Context<'a> {
    pub(crate) fn new(report: Report<'a>, load: Load<'a>, technique: Technique) -> Self {
        Self { report, load, technique, assumptions: Vec::new(), consumed: BTreeSet::new() }
    }

    /// Opens a record to ask for its values.
    pub(crate) fn ask<'c, 'r>(&'c mut self, record: &'r Record) -> Ask<'c, 'r, 'a> {
        Ask { cx: self, record }
    }

    /// Everything that was assumed, in the order of the file.
    pub(crate) fn take_assumptions(&mut self) -> Vec<Assumption> {
        let mut list = std::mem::take(&mut self.assumptions);
        list.sort_by_key(|(rank, _)| *rank);
        list.into_iter().map(|(_, assumption)| assumption).collect()
    }
}

impl Ask<'_, '_, '_> {
    /// A number in SI, where it was given.
    pub(crate) fn number(&mut self, key: &str) -> Option<Given<f64>> {
        match self.take(key)? {
            Given { value: Reading::Number(value), place } => Some(Given { value, place }),
            _ => None,
        }
    }

    /// A whole number, where it was given.
    pub(crate) fn integer(&mut self, key: &str) -> Option<Given<u32>> {
        match self.take(key)? {
            Given { value: Reading::Integer(value), place } => Some(Given { value, place }),
            _ => None,
        }
    }

    /// A text, where it was given.
    pub(crate) fn text(&mut self, key: &str) -> Option<Given<String>> {
        match self.take(key)? {
            Given { value: Reading::Text(value), place } => Some(Given { value, place }),
            _ => None,
        }
    }

    /// A word of a choice, where it was given.
    pub(crate) fn word(&mut self, key: &str) -> Option<Given<&'static str>> {
        match self.take(key)? {
            Given { value: Reading::Word(value), place } => Some(Given { value, place }),
            _ => None,
        }
    }

    /// Any other reading, where it was given.
    pub(crate) fn reading(&mut self, key: &str) -> Option<Given<Reading>> {
        self.take(key)
    }

    /// A number with a fixed default.
    pub(crate) fn number_or_default(&mut self, key: &str) -> Option<f64> {
        match self.given_or_default(key)? {
            Reading::Number(value) => Some(value),
            _ => None,
        }
    }

    /// A whole number with a fixed default.
    pub(crate) fn integer_or_default(&mut self, key: &str) -> Option<u32> {
        match self.given_or_default(key)? {
            Reading::Integer(value) => Some(value),
            _ => None,
        }
    }

    /// A word with a fixed default.
    pub(crate) fn word_or_default(&mut self, key: &str) -> Option<&'static str> {
        match self.given_or_default(key)? {
            Reading::Word(value) => Some(value),
            _ => None,
        }
    }

    /// A number, or what a rule gives; the assumption keeps the definition's source.
    pub(crate) fn number_or(&mut self, key: &str, rule: Option<f64>) -> Option<f64> {
        let source = self.field(key).and_then(|f| match &f.need {
            Need::Default(_, why) => Some(why.source()),
            _ => None,
        });
        self.number_or_from(key, rule.zip(source))
    }

    /// A number, or a value with its own source.
    pub(crate) fn number_or_from(&mut self, key: &str, rule: Option<(f64, Source)>) -> Option<f64> {
        if let Some(given) = self.number(key) {
            return Some(given.value);
        }
        if self.record.has(key) {
            return None;
        }
        let (value, source) = rule?;
        let unit = self.field(key)?.unit()?;
        self.assume(key, shown(value, unit), source);
        Some(value)
    }

    /// Why the default of a field is what it is.
    pub(crate) fn default_source(&self, key: &str) -> Source {
        match self.field(key).map(|f| &f.need) {
            Some(Need::Default(_, why)) => why.source(),
            _ => Source::given(),
        }
    }

    /// Notes that a field is missing that this case needs; nothing where it was given, readable or
    /// not.
    pub(crate) fn require(&mut self, key: &str, case: &str) {
        if self.record.has(key) {
            return;
        }
        let Some(field) = self.field(key) else { return };
        let (section, place) = (self.record.section, self.record.place.below(key));
        let header = in_section(section);
        let message = format!("{key} is missing{header}: {}; needed {case}", field.meaning);
        let hint = format!("add a line {key} = {}{header}", field.example);
        self.cx.report.error("missing", &place, message).hint(hint);
    }

    /// Notes that a field does not go with what else is given; nothing where it was not given.
    pub(crate) fn refuse(&mut self, key: &str, reason: &str, hint: &str) {
        self.note_consumed(key);
        if let Some(entry) = self.record.entry(key) {
            let place = entry.place.clone();
            let message = format!("{key} cannot be given here: {reason}");
            self.cx.report.error("conflict", &place, message).hint(hint);
        }
    }

    /// Notes an error at a key.
    pub(crate) fn error(
        &mut self,
        code: &'static str,
        key: &str,
        message: impl Into<String>,
    ) -> &mut crate::Diagnostic {
        let place = self.record.place_of(key);
        self.cx.report.error(code, &place, message)
    }

    /// Notes an error at a place inside a value.
    pub(crate) fn error_at(
        &mut self,
        code: &'static str,
        place: &Place,
        message: impl Into<String>,
    ) -> &mut crate::Diagnostic {
        self.cx.report.error(code, place, message)
    }

    /// Gives the bytes of a file that the crossing file names.
    pub(crate) fn load(&self, name: &str) -> Result<Vec<u8>, String> {
        (self.cx.load)(name)
    }

    /// Notes a warning at a key.
    pub(crate) fn warning(
        &mut self,
        code: &'static str,
        key: &str,
        message: impl Into<String>,
    ) -> &mut crate::Diagnostic {
        let place = self.record.place_of(key);
        self.cx.report.warning(code, &place, message)
    }

    /// Number of errors in the whole file so far.
    pub(crate) fn errors(&self) -> usize {
        self.cx.report.errors()
    }

    /// Lists a value that nobody gave.
    pub(crate) fn assume(&mut self, key: &str, value: String, source: Source) {
        let section = self.record.section;
        let Some(field) = section.field(key) else { return };
        let rank = self
            .cx
            .technique
            .sections()
            .iter()
            .flat_map(|s| s.fields)
            .take_while(|f| !std::ptr::eq(*f, field))
            .count();
        let path = self.record.place.below(key).path;
        let meaning = field.meaning.to_owned();
        self.cx.assumptions.push((rank, Assumption { path, meaning, value, source }));
    }

    /// Whether the key stood in the file, readable or not.
    pub(crate) fn has(&mut self, key: &str) -> bool {
        self.note_consumed(key);
        self.record.has(key)
    }

    fn given_or_default(&mut self, key: &str) -> Option<Reading> {
        if let Some(given) = self.take(key) {
            return Some(given.value);
        }
        if self.record.has(key) {
            return None;
        }
        let field = self.field(key)?;
        let Need::Default(Fallback::Value(text), why) = &field.need else { return None };
        let value = DeValue::parse(text).ok()?;
        let mut quiet = Report::new("", text);
        let reading = read_value(field, &value, &Place::default(), &mut quiet)?;
        let shown = match (&reading, field.unit()) {
            (Reading::Number(si), Some(unit)) => shown(*si, unit),
            (Reading::Word(word), _) => (*word).to_owned(),
            _ => (*text).to_owned(),
        };
        self.assume(key, shown, why.source());
        Some(reading)
    }

    fn take(&mut self, key: &str) -> Option<Given<Reading>> {
        self.note_consumed(key);
        let entry = self.record.entry(key)?;
        Some(Given { value: entry.reading.clone()?, place: entry.place.clone() })
    }

    fn note_consumed(&mut self, key: &str) {
        match self.record.section.field(key) {
            Some(field) => {
                self.cx.consumed.insert((self.record.section.key, field.key));
            }
            None => debug_assert!(false, "no field {key} in [{}]", self.record.section.key),
        }
    }

    fn field(&self, key: &str) -> Option<&'static Field> {
        self.record.section.field(key)
    }
}
