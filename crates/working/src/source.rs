use std::borrow::Cow;

use serde::Serialize;

/// How well a value or a formula is founded. Kept all the way to the reader's report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Evidence {
    /// Given by the user of the program.
    Given,
    /// Read in the published source that is named.
    Published,
    /// Follows exactly from mechanics or geometry; the derivation is checked by tests.
    Derived,
    /// Computed here from a named formula; not an outside validation.
    Computed,
    /// Remembered from the named document, whose text was not read: confirm before relying on it.
    FromMemory,
    /// Common practice of the trade, without a source.
    CommonPractice,
    /// Engineering judgement of the authors of this program, without a source.
    Judgement,
}

impl Evidence {
    /// Short label for tables.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Evidence::Given => "given",
            Evidence::Published => "published",
            Evidence::Derived => "derived",
            Evidence::Computed => "computed",
            Evidence::FromMemory => "from memory, to be confirmed",
            Evidence::CommonPractice => "common practice, no source",
            Evidence::Judgement => "judgement, no source",
        }
    }
}

/// Where a value or a formula comes from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Source {
    /// The document with the place in it, or a sentence on the derivation.
    pub text: Cow<'static, str>,
    /// How well founded it is.
    pub evidence: Evidence,
}

impl Source {
    /// A source known when the program was written.
    #[must_use]
    pub const fn new(text: &'static str, evidence: Evidence) -> Self {
        Self { text: Cow::Borrowed(text), evidence }
    }

    /// A source made of text that is only known at run time, as a user's certificate.
    #[must_use]
    pub fn owned(text: String, evidence: Evidence) -> Self {
        Self { text: Cow::Owned(text), evidence }
    }

    /// A value typed by the user.
    #[must_use]
    pub const fn given() -> Self {
        Self::new("given", Evidence::Given)
    }
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self.evidence {
            Evidence::Given if self.text == "given" => f.write_str("given"),
            evidence => write!(f, "{} ({})", self.text, evidence.label()),
        }
    }
}

/// A value that nobody gave: what the program used instead, and why.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Assumption {
    /// Place of the missing value, as a path in the crossing file: `/factors/friction_bore`.
    pub path: String,
    /// What was assumed, in words.
    pub meaning: String,
    /// The value with its unit, as a person reads it.
    pub value: String,
    /// Where the value comes from.
    pub source: Source,
}
