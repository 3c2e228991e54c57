use quantity::Unit;
use working::{Evidence, Source};

use super::range::Range;

/// One table, or one kind of array of tables, of the crossing file.
#[derive(Debug)]
pub struct Section {
    /// Key path as written in a header: `bore.rods`; empty for the top of the file.
    pub key: &'static str,
    /// Whether the header stands once or many times.
    pub shape: Shape,
    /// What the section describes.
    pub meaning: &'static str,
    /// Whether the section must stand in the file.
    pub required: bool,
    /// The fields in the order in which they are documented.
    pub fields: &'static [Field],
}

/// How often the header of a section stands in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Once: `[bore]`.
    Table,
    /// Any number of times: `[[site.obstacle]]`.
    Array,
}

/// One field of a section: the only definition the reader, the schema, the starter and the
/// reference share.
#[derive(Debug)]
pub struct Field {
    /// Key as written in the file.
    pub key: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// What may be written.
    pub value: Value,
    /// Whether it must be written.
    pub need: Need,
    /// A value that would do, as written in the file.
    pub example: &'static str,
    /// What is usual inside the allowed range; a value outside it is a warning.
    pub usual: Option<Usual>,
}

/// Where the values of practice lie, so that a slip of the unit or of the decimal point is seen.
#[derive(Debug, Clone, Copy)]
pub struct Usual {
    /// Usual range of the magnitude, in the unit of the field.
    pub range: Range,
    /// Whether zero is usual too, because it stands for "none".
    pub or_zero: bool,
    /// What may be meant instead.
    pub hint: &'static str,
}

/// What may be written for a field.
#[derive(Debug)]
pub enum Value {
    /// A text.
    Text,
    /// A whole number.
    Integer(Range),
    /// A quantity: a text with a unit, or a bare number in the unit named here.
    Quantity(Unit, Range),
    /// One of a few words.
    Choice(&'static [Word]),
    /// One of a few words, or a quantity.
    ChoiceOrQuantity(&'static [Word], Unit, Range),
    /// A list of whole numbers.
    Integers(Range),
    /// A list of quantities of one kind.
    Quantities(Unit, Range),
    /// A list of rows, each with one quantity per column.
    Rows(&'static [Column]),
    /// A list of texts.
    Texts,
    /// A list of rows, each with a name, called by these words, and one quantity per column.
    NamedRows(&'static str, &'static [Column]),
}

/// One word of a choice.
#[derive(Debug)]
pub struct Word {
    /// As written in the file.
    pub word: &'static str,
    /// What it stands for.
    pub meaning: &'static str,
}

/// One column of a list of rows.
#[derive(Debug)]
pub struct Column {
    /// Name used in messages.
    pub name: &'static str,
    /// Unit of a bare number.
    pub unit: Unit,
    /// Allowed range in that unit.
    pub range: Range,
    /// What may be meant by values outside the range, where that is known.
    pub hint: Option<&'static str>,
}

/// Whether a field must be written.
#[derive(Debug)]
pub enum Need {
    /// Must be written.
    Required,
    /// Must be written in the case that the words name.
    RequiredWhen(&'static str),
    /// Taken from here, and listed as an assumption, when nothing is written.
    Default(Fallback, Why),
    /// May be left out; the words say what is left out with it.
    Optional(&'static str),
}

/// Why a default is what it is: a [`Source`] that can stand in a table.
#[derive(Debug, Clone, Copy)]
pub struct Why {
    text: &'static str,
    evidence: Evidence,
}

impl Why {
    pub(crate) const fn new(text: &'static str, evidence: Evidence) -> Self {
        Self { text, evidence }
    }

    /// The same as a source of an assumption.
    #[must_use]
    pub const fn source(self) -> Source {
        Source::new(self.text, self.evidence)
    }
}

/// What is taken when a field with a default is not written.
#[derive(Debug)]
pub enum Fallback {
    /// A fixed value, as it would be written in the file.
    Value(&'static str),
    /// A value that follows from others, in words.
    Rule(&'static str),
}

impl Usual {
    /// Whether a value, in the unit of the field, is usual.
    #[must_use]
    pub fn holds(&self, value: f64, unit: Unit) -> bool {
        (self.or_zero && value == 0.0) || self.range.broken(value.abs(), unit).is_none()
    }

    /// The usual values in words: `usually 30 mm to 250 mm`.
    #[must_use]
    pub fn describe(&self, unit: Unit) -> String {
        let zero = if self.or_zero { ", or 0" } else { "" };
        format!("usually {}{zero}", self.range.describe(unit))
    }
}

impl Section {
    /// The field with this key.
    #[must_use]
    pub fn field(&self, key: &str) -> Option<&'static Field> {
        self.fields.iter().find(|f| f.key == key)
    }

    /// Header as written in the file; empty for the top of the file.
    #[must_use]
    pub fn header(&self) -> String {
        match self.shape {
            _ if self.key.is_empty() => String::new(),
            Shape::Table => format!("[{}]", self.key),
            Shape::Array => format!("[[{}]]", self.key),
        }
    }

    /// Path used in messages and assumptions: `/bore/rods`.
    #[must_use]
    pub fn path(&self) -> String {
        if self.key.is_empty() { String::new() } else { format!("/{}", self.key.replace('.', "/")) }
    }
}

impl Field {
    const fn new(key: &'static str, meaning: &'static str, value: Value) -> Self {
        Self { key, meaning, value, need: Need::Required, example: "", usual: None }
    }

    /// A required text.
    pub(crate) const fn text(key: &'static str, meaning: &'static str) -> Self {
        Self::new(key, meaning, Value::Text)
    }

    /// A required whole number.
    pub(crate) const fn integer(key: &'static str, meaning: &'static str, range: Range) -> Self {
        Self::new(key, meaning, Value::Integer(range))
    }

    /// A required quantity.
    pub(crate) const fn quantity(
        key: &'static str,
        meaning: &'static str,
        unit: Unit,
        range: Range,
    ) -> Self {
        Self::new(key, meaning, Value::Quantity(unit, range))
    }

    /// A required choice.
    pub(crate) const fn choice(
        key: &'static str,
        meaning: &'static str,
        words: &'static [Word],
    ) -> Self {
        Self::new(key, meaning, Value::Choice(words))
    }

    /// A required field of another shape.
    pub(crate) const fn other(key: &'static str, meaning: &'static str, value: Value) -> Self {
        Self::new(key, meaning, value)
    }

    /// The same field, required in one case only.
    pub(crate) const fn when(mut self, case: &'static str) -> Self {
        self.need = Need::RequiredWhen(case);
        self
    }

    /// The same field with a fixed default.
    pub(crate) const fn or(mut self, value: &'static str, why: Why) -> Self {
        self.need = Need::Default(Fallback::Value(value), why);
        self.example = value;
        self
    }

    /// The same field with a default that follows from other values.
    pub(crate) const fn or_rule(mut self, rule: &'static str, why: Why) -> Self {
        self.need = Need::Default(Fallback::Rule(rule), why);
        self
    }

    /// The same field, to be left out at the price that the words name.
    pub(crate) const fn optional(mut self, without: &'static str) -> Self {
        self.need = Need::Optional(without);
        self
    }

    /// The same field with an example, as written in the file.
    pub(crate) const fn example(mut self, text: &'static str) -> Self {
        self.example = text;
        self
    }

    /// The same field with what is usual; the hint says what may be meant by other values.
    pub(crate) const fn usually(mut self, range: Range, hint: &'static str) -> Self {
        self.usual = Some(Usual { range, or_zero: false, hint });
        self
    }

    /// The same field with what is usual where there is any; zero stands for none.
    pub(crate) const fn usually_or_zero(mut self, range: Range, hint: &'static str) -> Self {
        self.usual = Some(Usual { range, or_zero: true, hint });
        self
    }

    /// Unit of a bare number, where the field holds one quantity or a list of them.
    #[must_use]
    pub fn unit(&self) -> Option<Unit> {
        match self.value {
            Value::Quantity(unit, _)
            | Value::Quantities(unit, _)
            | Value::ChoiceOrQuantity(_, unit, _) => Some(unit),
            _ => None,
        }
    }
}
