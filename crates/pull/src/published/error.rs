/// Why a method gives no force for its inputs.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PublishedError {
    /// An input lies outside the range of the method.
    #[error("{quantity} must be {allowed}, but was {found}")]
    OutOfRange {
        /// The input.
        quantity: &'static str,
        /// Its value.
        found: String,
        /// The range.
        allowed: String,
    },
    /// The force after a bend, which stands on both sides of its equation, was not found.
    #[error("{quantity} was not found: {error}")]
    NotConverged {
        /// What was looked for.
        quantity: &'static str,
        /// Why the search ended.
        error: numerics::RootError,
    },
    /// The string would be pushed through a bend.
    #[error(
        "mean force in the bend must be a pull, but was {mean_force}: the string runs down by its \
         own weight there, and a beam under tension does not describe that"
    )]
    Pushed {
        /// Mean of the forces before and after the bend.
        mean_force: String,
    },
    /// The inputs are each allowed, but together give no finite number.
    #[error("{quantity} has no finite value for these inputs")]
    NotFinite {
        /// The result.
        quantity: &'static str,
    },
    /// An error in one part of a path.
    #[error("part {number} of the path: {error}")]
    InPart {
        /// Number of the part from the pipe side, from 1.
        number: usize,
        /// What is wrong there.
        error: Box<PublishedError>,
    },
}

impl PublishedError {
    /// The quantity at fault, where one is.
    #[must_use]
    pub fn quantity(&self) -> Option<&'static str> {
        match self {
            PublishedError::OutOfRange { quantity, .. }
            | PublishedError::NotConverged { quantity, .. }
            | PublishedError::NotFinite { quantity } => Some(quantity),
            PublishedError::Pushed { .. } => None,
            PublishedError::InPart { error, .. } => error.quantity(),
        }
    }
}
