//! Pipe, contact and arcs of the reference crossing, for the tests of the stiff pipe.

use quantity::{Angle, ForcePerLength, Length, Pressure};

use super::{Arc, BendPlane, Contact, StiffPipe};

pub(super) fn steel(net_weight: f64) -> StiffPipe {
    StiffPipe {
        outside_diameter: Length::metres(0.61),
        wall: Length::metres(0.0127),
        modulus: Pressure::megapascals(207e3),
        net_weight: ForcePerLength::newtons_per_metre(net_weight),
    }
}

pub(super) fn contact(friction: f64, fluid_stress: f64) -> Contact {
    Contact { friction, fluid_stress: Pressure::pascals(fluid_stress) }
}

pub(super) fn arc(radius: f64, angle: f64, mean_inclination: f64, plane: BendPlane) -> Arc {
    Arc {
        radius: Length::metres(radius),
        angle: Angle::degrees(angle),
        mean_inclination: Angle::degrees(mean_inclination),
        plane,
    }
}
