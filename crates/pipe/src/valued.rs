use working::{Evidence, Source};

/// A value together with where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Valued<T> {
    /// The value.
    pub value: T,
    /// Where it comes from and how well it is founded.
    pub source: Source,
}

impl<T> Valued<T> {
    /// A value with its source.
    #[must_use]
    pub const fn new(value: T, source: Source) -> Self {
        Self { value, source }
    }

    /// A value that the user gave.
    #[must_use]
    pub const fn given(value: T) -> Self {
        Self { value, source: Source::given() }
    }

    /// A value with a source that was known when the program was written.
    #[must_use]
    pub const fn from_text(value: T, text: &'static str, evidence: Evidence) -> Self {
        Self { value, source: Source::new(text, evidence) }
    }

    /// How well the value is founded.
    #[must_use]
    pub const fn evidence(&self) -> Evidence {
        self.source.evidence
    }
}
