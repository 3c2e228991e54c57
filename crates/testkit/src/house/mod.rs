//! The tree held against its own rules. Each rule returns what breaks it; an empty list is a kept rule.

pub use self::imports::{Crate, broken_imports, normal_imports, table_of};
pub use self::licences::{allowed_licences, broken_licences, is_allowed};
pub use self::metadata::{Metadata, MetadataError, Package, read_metadata};
pub use self::sources::{long_files, machine_paths, tracked_files};

mod imports;
mod licences;
mod metadata;
mod sources;
