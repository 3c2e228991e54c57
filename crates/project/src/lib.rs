//! The crossing file: fields defined once, parsed with positions, validated.
//!
//! [`read`] turns the text of a file into a valid [`Project`] or into every [`Diagnostic`] that
//! there is on it. The
//! [`fields`] module holds the one definition of every field, from which [`schema`], [`starter`]
//! and [`reference()`] come too.

pub use self::context::Load;
pub use self::diagnostic::{Diagnostic, Severity};
pub use self::identifier::obstacle_ids;
pub use self::model::{
    Assembly, Bore, Drilling, Factors, Fluid, FluidModel, GroundFactors, LimitCriterion,
    LineDesign, Outlet, Project, Pump, Readings, Rig, Rods, ServicePressures, Site, StringDesign,
};
pub use self::read::{
    LARGEST_FILE, Reading, read, read_beside, read_bytes, read_bytes_beside, read_with_warnings,
};
pub use self::reference::reference;
pub use self::schema::schema;
pub use self::starter::starter;

pub mod fields;

mod context;
mod diagnostic;
mod given;
mod identifier;
mod measure;
mod model;
mod read;
mod reference;
mod schema;
mod source;
mod starter;
mod syntax;
mod tree;
mod value;
mod wording;
