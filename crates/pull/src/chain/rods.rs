use glam::DVec3;
use line::Line;
use quantity::{Force, ForcePerLength, Length, Pressure};

/// The drill rods between the pulling head and the rig.
#[derive(Debug, Clone, Copy)]
pub struct RodString {
    /// Net weight per length in the fluid; positive sinks.
    pub net_weight: ForcePerLength,
    /// Outside diameter.
    pub diameter: Length,
    /// Friction against the bore wall.
    pub friction: f64,
    /// Shear stress of the fluid on the rods.
    pub fluid_stress: Pressure,
}

/// Longest step along the rods, m.
const STEP: f64 = 2.0;

/// The bore as the rods see it: directions at stations at most 2 m apart, found once for all head positions.
#[derive(Debug, Clone)]
pub struct RodPath<'a> {
    line: &'a Line,
    length: f64,
    /// Measured distance and direction, from the entry point on.
    tangents: Vec<(f64, DVec3)>,
}

impl<'a> RodPath<'a> {
    /// The path along a line.
    #[must_use]
    pub fn new(line: &'a Line) -> Self {
        let length = line.length().si();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "thousands")]
        let steps = (length / STEP).ceil().max(1.0) as usize;
        #[expect(clippy::cast_precision_loss, reason = "thousands")]
        let at = |k: usize| length * k as f64 / steps as f64;
        let tangents = (0..=steps).map(|k| (at(k), line.sample(at(k)).tangent)).collect();
        Self { line, length, tangents }
    }
}

/// Pull at the rig that moves the rods from the head to the entry point with a given pull at their lower end.
///
/// ```text
/// dF = μ |F κ − w z⊥| ds + τ π d ds + w sin(i) ds          (soft string, steps of at most 2 m)
/// ```
/// | symbol | meaning                                    | unit |
/// |--------|--------------------------------------------|------|
/// | F      | pull along the rods, in the pull direction | N    |
/// | κ      | curvature vector of the bore               | 1/m  |
/// | w, z⊥  | net weight, upward unit vector across the rods | N/m, – |
/// | i      | inclination in the pull direction, up positive | rad |
/// | τ, d   | fluid stress, rod diameter                 | Pa, m |
///
/// # Source
/// Johancsik, Friesen, Dawson: torque and drag in directional wells, SPE 11380 (soft string), as used in
/// `published::soft_string`. Rods are flexible against the bore, so that their bending is left out.
#[must_use]
pub fn pull_through_rods(path: &RodPath, rods: &RodString, head: Length, at_head: Force) -> Force {
    let from = path.length - head.si();
    if from <= 0.0 {
        return at_head;
    }
    let weight = rods.net_weight.si();
    let drag = rods.fluid_stress.si() * std::f64::consts::PI * rods.diameter.si();
    let mut force = at_head.si();
    let mut behind = -path.line.sample(from).tangent;
    let mut md = from;
    // Stations nearer to the rig than the head, from the head to the entry point.
    let nearer = path.tangents.partition_point(|(at, _)| *at < from - 1e-9);
    for (next, tangent) in path.tangents[..nearer].iter().rev() {
        let ahead = -*tangent;
        let step = md - next;
        let along = (behind + ahead).normalize_or_zero();
        let up_across = DVec3::Z - along * along.z;
        let along_step = step * (drag + weight * along.z);
        // The side force of a step follows its middle force, of which its friction is a part: two rounds settle it
        // to the square of μ times the step's turn, below 1e-5 for the radii of the trade.
        let mut friction = 0.0;
        for _ in 0..3 {
            let middle = force + 0.5 * (along_step + friction);
            let side = (middle * (ahead - behind) - weight * step * up_across).length();
            friction = rods.friction * side;
        }
        force += friction + along_step;
        (behind, md) = (ahead, *next);
    }
    Force::from_si(force)
}
