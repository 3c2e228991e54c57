//! Reads others' formats of ground data: CSV tables and AGS4.
//!
//! [`read_ground`] turns the bytes of a file into [`GroundData`] in SI units, or into every [`DataIssue`] that there is
//! on it. It knows no file system: the name is only printed and looked at for its extension.

pub use self::ground_data::{BoringData, CptData, Format, GroundData, SptData, StratumData};
pub use self::issue::{DataIssue, Severity};
pub use self::read::{LARGEST_FILE, read_ground};

mod ags;
mod assemble;
mod fields;
mod ground_data;
mod issue;
mod old_ags;
mod plain;
mod read;
mod records;
mod spec;
mod spt_result;
mod table;
mod text;
