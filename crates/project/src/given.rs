use crate::diagnostic::Place;

/// A value with the place that it stands at, for messages on how it goes with others.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Given<T> {
    pub(crate) value: T,
    pub(crate) place: Place,
}
