//! What leaves the engineer's desk beside the calculation book: drawings, workbook and data files.
//!
//! Everything is made from one [`Subject`]. The same subject gives the same bytes: a date comes from the user.

pub use self::issue::{Date, Issue, IssueError};
pub use self::named_file::NamedFile;
pub use self::subject::Subject;

pub mod data;
pub mod drawing;
pub mod font;
pub mod scene;
pub mod workbook;

mod issue;
mod named_file;
mod subject;
