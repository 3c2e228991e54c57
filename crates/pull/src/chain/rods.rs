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
pub fn pull_through_rods(line: &Line, rods: &RodString, head: Length, at_head: Force) -> Force {
    let from = line.length().si() - head.si();
    if from <= 0.0 {
        return at_head;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few thousand")]
    let steps = (from / 2.0).ceil().max(1.0) as usize;
    #[expect(clippy::cast_precision_loss, reason = "a few thousand")]
    let step = from / steps as f64;
    let weight = rods.net_weight.si();
    let drag = rods.fluid_stress.si() * std::f64::consts::PI * rods.diameter.si();
    let mut force = at_head.si();
    let mut behind = -line.sample(from).tangent;
    for k in 0..steps {
        #[expect(clippy::cast_precision_loss, reason = "a few thousand")]
        let md = from - step * (k + 1) as f64;
        let ahead = -line.sample(md).tangent;
        let along = (behind + ahead).normalize_or_zero();
        let up_across = glam::DVec3::Z - along * along.z;
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
        behind = ahead;
    }
    Force::from_si(force)
}
