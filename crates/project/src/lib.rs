//! The crossing file: fields defined once, parsed with positions, validated.
//!
//! [`read`] turns the text of a file into a valid [`Project`] or into every [`Diagnostic`] that
//! there is on it. The
//! [`fields`] module holds the one definition of every field, from which [`schema`], [`starter`]
//! and [`reference()`] come too.

pub use self::context::{Load, no_files};
pub use self::coordinates::{Coordinates, HostCoordinates, HostPoint};
pub use self::diagnostic::{Diagnostic, Severity};
pub use self::fields::Technique;
pub use self::identifier::{ids_of_names, obstacle_ids};
pub use self::model::{
    Assembly, Bore, Drilling, Factors, Fluid, FluidModel, GroundFactors, LimitCriterion,
    LineDesign, Outlet, Project, Pump, Readings, Rig, Rods, ServicePressures, Site, StringDesign,
};
pub use self::read::{
    Design, DesignReading, LARGEST_FILE, Reading, read, read_beside, read_bytes, read_design,
    read_with_warnings,
};
pub use self::reference::reference;
pub use self::renewal::{
    Asbestos, Burst, BurstFactors, Connection, Feature, Fill, Host, HostBend, Machine, Material,
    Neighbour, NeighbourPlace, Pit, Renewal, Run, Street, Stretch, Yields,
};
pub use self::schema::schema;
pub use self::starter::starter;

pub mod fields;

mod context;
mod coordinates;
mod diagnostic;
mod given;
mod identifier;
mod measure;
mod model;
mod read;
mod reference;
mod renewal;
mod schema;
mod source;
mod starter;
mod syntax;
mod tree;
mod value;
mod wording;
