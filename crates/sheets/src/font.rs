//! The typeface of drawings, documents and pages: Source Sans 3, under the SIL Open Font License (`fonts/LICENSE.txt`).

/// Upright.
pub static REGULAR: &[u8] = include_bytes!("../fonts/SourceSans3-Regular.ttf");
/// For headings.
pub static SEMI_BOLD: &[u8] = include_bytes!("../fonts/SourceSans3-SemiBold.ttf");
/// Slanted.
pub static ITALIC: &[u8] = include_bytes!("../fonts/SourceSans3-Italic.ttf");
/// Name of the family.
pub const FAMILY: &str = "Source Sans 3";
