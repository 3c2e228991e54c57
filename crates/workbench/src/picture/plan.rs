//! Plan and cross-section of a design.

use serde::Serialize;

/// The line in plan.
#[derive(Debug, Serialize)]
pub struct Plan {
    /// East, north and chainage of points on the axis, m.
    pub axis: Vec<[f64; 3]>,
    /// Borings: name, east, north.
    pub borings: Vec<(String, f64, f64)>,
    /// What crosses: name, chainage from, chainage to.
    pub crossings: Vec<(String, f64, f64)>,
}

/// Circles of the cross-section; `None` where a size is not known.
#[derive(Debug, Default, Serialize)]
pub struct Cross {
    /// Circles from the outside inwards: what, diameter in m.
    pub circles: Vec<(String, f64)>,
    /// The largest outside diameter of the string, which rides on the wall, m.
    pub socket: Option<f64>,
    /// Barrel with coating, m.
    pub barrel: f64,
    /// Whether the string floats up to the crown.
    pub floats: Option<bool>,
}
