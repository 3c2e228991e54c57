use line::LineError;
use quantity::Length;

/// Why the surroundings of a bore, or a distance from them, cannot be had.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GroundError {
    /// The ground line has too few points.
    #[error("a ground line must have at least 2 points, but had {found}")]
    TooFewPoints {
        /// How many it has.
        found: usize,
    },
    /// A point of the ground line is not a finite number within a million kilometres.
    #[error("{what} of ground point {} must be a finite number, but was {found}", index + 1)]
    NotFinite {
        /// The point, from zero.
        index: usize,
        /// Chainage or level.
        what: &'static str,
        /// What was found.
        found: String,
    },
    /// Chainages of the ground line do not rise.
    #[error(
        "chainage of ground point {} must be greater than {previous}, that of the point before, \
         but was {found}",
        index + 1
    )]
    NotRising {
        /// The point, from zero.
        index: usize,
        /// Its chainage.
        found: Length,
        /// Chainage of the point before.
        previous: Length,
    },
    /// A chainage lies outside the ground line.
    #[error("chainage must be {from} to {to}, where the ground line is known, but was {found}")]
    OutsideGround {
        /// What was asked for.
        found: Length,
        /// Start of the ground line.
        from: Length,
        /// End of the ground line.
        to: Length,
    },
    /// A value lies outside its range.
    #[error("{quantity} must be {allowed}, but was {found}")]
    OutOfRange {
        /// The value.
        quantity: &'static str,
        /// What was found, with its unit.
        found: String,
        /// What is allowed.
        allowed: &'static str,
    },
    /// An obstacle's stretch ends before it starts.
    #[error("{name}: its stretch must end after it starts, but runs from {from} to {to}")]
    EmptyStretch {
        /// The obstacle.
        name: String,
        /// Chainage of its start.
        from: Length,
        /// Chainage of its end.
        to: Length,
    },
    /// An obstacle lies wholly before the entry or beyond the exit.
    #[error("{name} lies at chainage {from} to {to}, outside the bore's 0 to {run}")]
    OutsideLine {
        /// The obstacle.
        name: String,
        /// Chainage of its start.
        from: Length,
        /// Chainage of its end.
        to: Length,
        /// Run of the bore.
        run: Length,
    },
    /// The bore is vertical: there is no vertical distance above its crown.
    #[error("the bore is vertical at measured distance {md}: it has no cover there")]
    Vertical {
        /// Where.
        md: Length,
    },
    /// No boring is known.
    #[error("the ground needs at least one boring")]
    NoBoring,
    /// A boring has no strata.
    #[error("boring {name} has no stratum")]
    NoStratum {
        /// The boring.
        name: String,
    },
    /// A boring has a value that cannot be.
    #[error("boring {name} has {what}")]
    BadBoring {
        /// The boring.
        name: String,
        /// What is wrong.
        what: &'static str,
    },
    /// The base of a stratum does not lie below that of the one above it.
    #[error(
        "base of stratum {} of boring {name} must lie below {above}, where it begins, but was {found}",
        index + 1
    )]
    StratumOrder {
        /// The boring.
        name: String,
        /// The stratum, from zero.
        index: usize,
        /// Level of its base.
        found: Length,
        /// Level at which it begins.
        above: Length,
    },
    /// Two borings stand at one chainage.
    #[error("borings {other} and {name} stand at the same chainage {chainage}")]
    SamePlace {
        /// A boring.
        name: String,
        /// The other one.
        other: String,
        /// Where both stand.
        chainage: Length,
    },
    /// A question put to the line has no answer.
    #[error(transparent)]
    Line(#[from] LineError),
}

impl GroundError {
    /// Stable code of the error.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            GroundError::TooFewPoints { .. } => "too_few",
            GroundError::NotFinite { .. } => "not_finite",
            GroundError::NotRising { .. } => "not_rising",
            GroundError::OutsideGround { .. } => "outside_ground",
            GroundError::OutOfRange { .. } => "out_of_range",
            GroundError::EmptyStretch { .. } => "empty_stretch",
            GroundError::OutsideLine { .. } => "outside_line",
            GroundError::Vertical { .. } => "vertical",
            GroundError::NoBoring => "no_boring",
            GroundError::NoStratum { .. } => "no_stratum",
            GroundError::BadBoring { .. } => "bad_boring",
            GroundError::StratumOrder { .. } => "stratum_order",
            GroundError::SamePlace { .. } => "same_place",
            GroundError::Line(error) => error.code(),
        }
    }
}
