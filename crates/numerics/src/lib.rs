//! Roots of functions of one variable, with accuracy as an argument.

pub use self::root::{RootError, root};

mod root;
