use quantity::ParseError;

/// What is wrong with the inputs of a worksheet.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum InputError {
    /// No input has this key.
    #[error("{sheet} has no input \"{key}\"; {hint}")]
    Unknown {
        /// Worksheet.
        sheet: &'static str,
        /// What was written.
        key: String,
        /// The nearest key, or the list.
        hint: String,
    },
    /// The same key stands twice.
    #[error("input \"{key}\" is given twice")]
    Twice {
        /// The key.
        key: &'static str,
    },
    /// A required input is missing.
    #[error("input \"{key}\" is missing: {meaning}, as in {key}={example}")]
    Missing {
        /// The key.
        key: &'static str,
        /// What it means.
        meaning: &'static str,
        /// A text that would do.
        example: String,
    },
    /// The text is not a quantity of the right kind.
    #[error("input \"{key}\": {error}")]
    Unreadable {
        /// The key.
        key: &'static str,
        /// What was found and what is allowed.
        error: ParseError,
    },
    /// The word is not one of the choices.
    #[error("input \"{key}\" must be {allowed}, but was \"{found}\"")]
    NotAChoice {
        /// The key.
        key: &'static str,
        /// The choices.
        allowed: String,
        /// What was written.
        found: String,
    },
    /// The value lies outside the range of the method.
    #[error("input \"{key}\" must be {allowed}, but was {found}{hint}")]
    OutOfRange {
        /// The key.
        key: &'static str,
        /// The range.
        allowed: String,
        /// What was written.
        found: String,
        /// What a number without unit means here, with its separator; empty where that does not explain the error.
        hint: String,
    },
    /// The calculation refuses the combination of inputs.
    #[error("{}{message}", if key.is_empty() { String::new() } else { format!("input \"{key}\": ") })]
    Refused {
        /// The key to change, or empty.
        key: &'static str,
        /// What is wrong.
        message: String,
    },
}

impl InputError {
    /// The key at fault, where one is.
    #[must_use]
    pub fn key(&self) -> &str {
        match self {
            InputError::Unknown { key, .. } => key,
            InputError::Twice { key }
            | InputError::Missing { key, .. }
            | InputError::Unreadable { key, .. }
            | InputError::NotAChoice { key, .. }
            | InputError::OutOfRange { key, .. }
            | InputError::Refused { key, .. } => key,
        }
    }

    /// Stable code of the error.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            InputError::Unknown { .. } => "unknown_key",
            InputError::Twice { .. } => "given_twice",
            InputError::Missing { .. } => "missing",
            InputError::Unreadable { .. } => "unreadable",
            InputError::NotAChoice { .. } => "not_a_choice",
            InputError::OutOfRange { .. } => "out_of_range",
            InputError::Refused { .. } => "refused",
        }
    }
}
