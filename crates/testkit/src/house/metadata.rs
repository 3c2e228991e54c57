use std::path::Path;
use std::process::Command;

use serde::Deserialize;

/// What `cargo metadata` tells about the workspace and everything that it is built from.
#[derive(Debug, Deserialize)]
pub struct Metadata {
    /// All packages.
    pub packages: Vec<Package>,
    /// Ids of our own packages.
    pub workspace_members: Vec<String>,
}

/// One package.
#[derive(Debug, Deserialize)]
pub struct Package {
    /// Id that members refer to.
    pub id: String,
    /// Name.
    pub name: String,
    /// Version.
    pub version: String,
    /// Licence expression.
    pub license: Option<String>,
    /// What it imports.
    pub dependencies: Vec<Dependency>,
}

/// One import of a package.
#[derive(Debug, Deserialize)]
pub struct Dependency {
    /// Name of the imported package.
    pub name: String,
    /// `dev` or `build`; nothing for a normal import.
    pub kind: Option<String>,
}

/// Why the metadata cannot be had.
#[derive(Debug)]
pub enum MetadataError {
    /// Cargo could not be started.
    Start(std::io::Error),
    /// Cargo refused.
    Refused(String),
    /// The answer has another shape.
    Shape(serde_json::Error),
}

impl std::fmt::Display for MetadataError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Start(error) => write!(f, "cargo could not be started: {error}"),
            Self::Refused(text) => write!(f, "cargo metadata: {text}"),
            Self::Shape(error) => write!(f, "cargo metadata has an unknown shape: {error}"),
        }
    }
}

impl std::error::Error for MetadataError {}

/// Asks cargo, without network, about the workspace at `root`.
///
/// # Errors
/// [`MetadataError`] when cargo cannot be started, refuses, or answers in another shape.
pub fn read_metadata(cargo: &Path, root: &Path) -> Result<Metadata, MetadataError> {
    let output = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--offline"])
        .current_dir(root)
        .output()
        .map_err(MetadataError::Start)?;
    if !output.status.success() {
        return Err(MetadataError::Refused(String::from_utf8_lossy(&output.stderr).into_owned()));
    }
    serde_json::from_slice(&output.stdout).map_err(MetadataError::Shape)
}

impl Metadata {
    /// Our own packages.
    pub fn own(&self) -> impl Iterator<Item = &Package> {
        self.packages.iter().filter(|p| self.workspace_members.contains(&p.id))
    }

    /// Packages of others.
    pub fn others(&self) -> impl Iterator<Item = &Package> {
        self.packages.iter().filter(|p| !self.workspace_members.contains(&p.id))
    }
}
