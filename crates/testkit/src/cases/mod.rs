//! The published check cases: data in `cases/`, one runner for all of them.

pub use self::compare::{Comparison, Expectation};
pub use self::file::{Case, EvidenceOfValues, Reject, Row};
pub use self::method::{Answer, MethodFailure, OTHER_METHODS, Value, run_method};
pub use self::run::{Summary, run_all, run_case};
pub use self::walk::{CasesError, read_all};

mod arguments;
mod beam;
mod compare;
mod file;
mod joint_data;
mod method;
mod path;
mod pipe_data;
mod run;
mod survey;
mod walk;
