//! A file that was made and not yet written.

/// A file that was made and not yet written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NamedFile {
    /// Its name, lower case with hyphens and an ending: `long-section.dxf`.
    pub name: String,
    /// Media type, as `image/svg+xml`.
    pub media_type: &'static str,
    /// What it is, in words.
    pub title: String,
    /// Its content.
    pub bytes: Vec<u8>,
}
