//! Ductile iron pressure pipe: dimensions, masses, joints, ratings, and what it weighs in a fluid.
//!
//! A [`Pipe`] is valid and does not change: it comes from a table ([`en545_pipe`], [`awwa_pipe`])
//! or from a user's data sheet ([`PipeData`], checked by [`Pipe::new`]). Every value carries its
//! [`working::Source`], so that a reader sees which figures were read in a publication, which were
//! computed and which were only remembered.
//!
//! Editions: EN 545:2010 and the K classes of EN 545 up to 2006 / ISO 2531; ANSI/AWWA
//! C151/A21.51-17.

pub use self::awwa::{
    AWWA_MODULUS, awwa_pipe, awwa_socket_depth, awwa_unrestrained_angle, awwa_unrestrained_bell,
};
pub use self::coating::{CoatingKind, coating};
pub use self::en545::{EN545_MODULUS, IRON_DENSITY, en545_pipe, preferred_class};
pub use self::error::PipeError;
pub use self::factory_test::factory_test_pressure;
pub use self::flange::flange_rating;
pub use self::joint::{
    AngleSet, Joint, MAKER_JOINTS, PullSet, angle_sets, joint_defaults, joint_offset,
    lowest_restrained_angle, maker_angles, pull_from_pressure, pull_sets, seal_external_proof,
};
pub use self::laying_type::{LayingType, laying_type};
pub use self::pipe::{Layer, Nominal, Pipe, PipeData, Standard};
pub use self::rating::{
    PRESSURE_SAFETY, Rating, TENSILE_STRENGTH, rating_from_wall, wall_for_pressure,
};
pub use self::size::{classes_for, sizes};
pub use self::socket::{
    RESTRAINED_SOCKET_FACTOR, push_on_socket_mass, restrained_socket_diameter,
    restrained_socket_mass,
};
pub use self::stress::{
    JOINT_TAKE_UP, THERMAL_EXPANSION, axial_stress, barrel_axial_capacity, elastic_stretch,
    end_thrust, hoop_stress, joint_proof_force, joint_take_up, pressure_of_thrust,
    pressure_stretch, thermal_movement,
};
pub use self::tables::{Cell, Column, Table, all_tables, find_table};
pub use self::tolerance::{lining_tolerance, outside_diameter_tolerance, straightness_limit};
pub use self::valued::Valued;
pub use self::weight::{Contents, WATER_DENSITY, net_weight, neutral_fill};

mod awwa;
mod coating;
mod data;
mod en545;
mod error;
mod factory_test;
mod flange;
mod joint;
mod laying_type;
mod pipe;
mod rating;
mod size;
mod socket;
mod stress;
mod tables;
mod tolerance;
mod valued;
mod weight;
