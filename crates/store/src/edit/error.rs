/// Why a value could not be changed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EditError {
    /// The text is not TOML as it stands.
    #[error("the text is not TOML: {0}")]
    NotToml(String),
    /// The path is none.
    #[error(
        "{0:?} is no path into the file: paths look like /line/entry_angle or /site/obstacle/2/clearance"
    )]
    Path(String),
    /// The path leads to nothing.
    #[error("there is nothing at {0}")]
    Nothing(String),
    /// The path leads through a value, or to a table where a value is to stand.
    #[error("at {path} stands {found}, which cannot be changed in this way")]
    Kind {
        /// The path.
        path: String,
        /// What stands there.
        found: &'static str,
    },
    /// A number that no file can hold.
    #[error("{0} is no number that can be written")]
    NotFinite(String),
    /// Lists in lists in lists.
    #[error("lists may stand in each other {0} deep")]
    TooDeep(usize),
    /// The change would have touched something else as well.
    #[error(
        "the value at {0} cannot be changed without touching others: the file is laid out in an unusual way"
    )]
    Layout(String),
}

impl EditError {
    /// Stable name of the kind of error, never reused.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotToml(_) => "not_toml",
            Self::Path(_) => "path",
            Self::Nothing(_) => "nothing_there",
            Self::Kind { .. } => "wrong_kind",
            Self::NotFinite(_) => "not_finite",
            Self::TooDeep(_) => "too_deep",
            Self::Layout(_) => "layout",
        }
    }

    /// What to do.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NotToml(_) => "correct the text first; its messages say where",
            Self::Path(_) => {
                "give the keys from the outside inwards, entries of lists by their number from 0"
            }
            Self::Nothing(_) => "add the table with this number first",
            Self::Kind { .. } => "give the path of a single value, or of a list to add to",
            Self::NotFinite(_) => "give a finite number",
            Self::TooDeep(_) => "give a list of numbers, or a list of rows of numbers",
            Self::Layout(_) => "change it in the text itself",
        }
    }
}
