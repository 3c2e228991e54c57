use glam::DVec3;
use quantity::{Angle, Length};

use crate::bore_line::LineBuilder;
use crate::curve::Curve;
use crate::range::Faults;
use crate::station::{attitude, direction};
use crate::{Field, Line, LineError};

/// Where and how a line of elements begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Level of the entry point, which lies at the origin of the plan.
    pub level: Length,
    /// Inclination at the entry point, negative where the bore goes down.
    pub inclination: Angle,
    /// Azimuth at the entry point.
    pub azimuth: Angle,
}

/// A part of a line as a designer states it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Element {
    /// A straight.
    Straight {
        /// Its length.
        length: Length,
    },
    /// A circular arc in the plane of the bore's direction and a toolface.
    Arc {
        /// Its radius.
        radius: Length,
        /// Angle turned, positive.
        turn: Angle,
        /// Direction of the turn seen along the bore: 0 up, 90 degrees right, 180 down, −90 left.
        toolface: Angle,
    },
}

/// Below this horizontal share of the tangent "up" has no direction: 1e-9 rad from the vertical.
const VERTICAL: f64 = 1e-9;

impl Line {
    /// The line of a start and a list of straights and arcs.
    ///
    /// # Errors
    /// All faults of the list at once; [`LineError::Vertical`] where an arc starts in a vertical
    /// bore.
    pub fn from_elements(start: Start, elements: &[Element]) -> Result<Self, Vec<LineError>> {
        let mut faults = Faults::default();
        faults.place(Field::StartPosition, start.level.si());
        faults.inclination(Field::StartInclination, start.inclination.si());
        faults.azimuth(Field::Azimuth, start.azimuth.si());
        for (i, element) in elements.iter().enumerate() {
            match element {
                Element::Straight { length } => {
                    faults.length(Field::ElementLength(i), length.si());
                }
                Element::Arc { radius, turn, toolface } => {
                    faults.radius(Field::ElementRadius(i), radius.si());
                    faults.turn(Field::ElementTurn(i), turn.si());
                    faults.azimuth(Field::ElementToolface(i), toolface.si());
                }
            }
        }
        if elements.is_empty() {
            faults.0.push(LineError::TooFew { field: Field::Elements, found: 0, needed: 1 });
        }
        if !faults.0.is_empty() {
            return Err(faults.0);
        }
        let mut builder = LineBuilder::new(DVec3::new(0.0, 0.0, start.level.si()));
        let mut tangent = direction(start.inclination.si(), start.azimuth.si());
        for (i, element) in elements.iter().enumerate() {
            let (curve, length) = match *element {
                Element::Straight { length } => {
                    let (inclination, azimuth) = attitude(tangent);
                    (Curve::straight(inclination, azimuth), length.si())
                }
                Element::Arc { radius, turn, toolface } => {
                    let flat = tangent.x.hypot(tangent.y);
                    if flat < VERTICAL {
                        return Err(vec![LineError::Vertical { field: Field::ElementToolface(i) }]);
                    }
                    let right = DVec3::new(tangent.y, -tangent.x, 0.0) / flat;
                    let up = right.cross(tangent);
                    let (sin, cos) = toolface.si().sin_cos();
                    let curvature = 1.0 / radius.si();
                    let normal = up * cos + right * sin;
                    (Curve::Circle { tangent, normal, curvature }, radius.si() * turn.si())
                }
            };
            builder.push(curve, length);
            tangent = curve.place(length).tangent.normalize();
        }
        builder
            .finish()
            .ok_or_else(|| vec![LineError::TooFew { field: Field::Elements, found: 0, needed: 1 }])
    }
}
