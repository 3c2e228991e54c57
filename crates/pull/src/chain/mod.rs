//! The string as a chain of rigid barrels.
//!
//! Ductile iron strings are rigid barrels of laying length *a* joined by hinged, restrained joints. In the bore they
//! touch the wall at the sockets, the largest diameter. For every position of the pulling head the model gives the
//! tension in every barrel, the side force and the angle at every joint, and the clearance of every barrel.
//!
//! Two problems are solved in turn until the tensions no longer change:
//! - where the joints ride, given the tensions: a convex problem with one disc constraint a joint (`positions.rs`);
//! - the tensions, given where the joints ride: one balance of forces a joint, from the tail to the head
//!   ([`joint_balance`]).
//!
//! # Coordinates
//! s runs along the bore axis from the pipe side (0) to the rig side (L), s = L − md. Joints are placed on the axis
//! so that neighbours are exactly one laying length apart in a straight line; their offsets u lie in the plane across
//! the axis and are bounded by the play of the socket in the bore. Offsets change the distance between neighbours
//! by at most play/R of the laying length, below 0.1 % for the sizes and radii of the trade; this is neglected.
//!
//! # Not covered
//! Friction across the direction of the pull, bending of the barrels (a barrel that touches the wall between its
//! sockets is reported with the bending it would need), torque.

pub use self::balance::{JointBalance, JointLoad, joint_balance};
pub use self::pull::{Extreme, HeadPosition, JointState, Joints, Pull, pull, pull_on, state_at};
pub use self::rods::{RodPath, RodString, pull_through_rods};
pub use self::setup::{ChainError, ChainSetup, Outside, Setup};

mod balance;
mod march;
mod nodes;
mod positions;
mod pull;
mod rods;
mod setup;

#[cfg(test)]
mod tests;
