use glam::DVec3;

/// What acts on one joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointLoad {
    /// Unit vector of the barrel behind the joint, pointing to the head.
    pub behind: DVec3,
    /// Unit vector of the barrel ahead of the joint, pointing to the head.
    pub ahead: DVec3,
    /// Tension in the barrel behind, N.
    pub tension_behind: f64,
    /// Net weight that the joint carries, N; positive sinks.
    pub weight: f64,
    /// Fluid drag on the joint's share of the string, N.
    pub drag: f64,
    /// Friction against the wall; zero where the joint does not touch it.
    pub friction: f64,
}

/// Forces at one joint in balance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointBalance {
    /// Tension in the barrel ahead, N; negative when the joint would run ahead of the pull.
    pub tension_ahead: f64,
    /// Force between joint and wall, N.
    pub side_force: f64,
    /// Angle between the barrels, rad.
    pub angle: f64,
}

/// Tension ahead of a joint and its side force, from the balance of forces on the joint.
///
/// ```text
/// T_f e_f − T_b e_b − W z + N n − (μ N + D) t = 0,      t the unit bisector of e_b and e_f
/// across t:   N = | (T_f + T_b) sin(δ/2) m − W z⊥ |,    m = (e_f − e_b)/|e_f − e_b|
/// along t:    T_f = T_b + ( W z·t + D + μ N ) / cos(δ/2)
/// ```
/// | symbol | meaning                               | unit |
/// |--------|---------------------------------------|------|
/// | T_b, T_f | tension behind and ahead            | N    |
/// | e_b, e_f | unit vectors of the barrels         | –    |
/// | δ      | joint angle, between e_b and e_f      | rad  |
/// | W      | net weight at the joint, positive sinks | N  |
/// | z      | unit vector upwards                   | –    |
/// | D      | drag                                  | N    |
/// | μ, N   | friction, side force                  | –, N |
///
/// N depends on T_f, which depends on N: a quadratic, solved in closed form. Without weight and drag the ratio T_f/T_b
/// is (cos δ/2 + μ sin δ/2)/(cos δ/2 − μ sin δ/2).
///
/// Returns `None` where μ·tan(δ/2) ≥ 1: friction grows faster than the pull and the joint locks.
///
/// # Source
/// Balance of forces, derived. Checked by: the weightless ratio, the straight incline and the capstan limit in
/// `chain/tests.rs`; `cases/pull/` for the published ratio.
#[must_use]
pub fn joint_balance(load: &JointLoad) -> Option<JointBalance> {
    let difference = load.ahead - load.behind;
    let sum = load.ahead + load.behind;
    let sine = 0.5 * difference.length();
    let cosine = 0.5 * sum.length();
    let along = if cosine > 0.0 { sum / (2.0 * cosine) } else { return None };
    let centre = if sine > 0.0 { difference / (2.0 * sine) } else { DVec3::ZERO };

    let weight_along = load.weight * along.z;
    let weight_across_squared = load.weight * load.weight * (1.0 - along.z * along.z).max(0.0);
    let weight_to_centre = load.weight * centre.z;

    let a = 2.0 * load.tension_behind + (weight_along + load.drag) / cosine;
    let beta = load.friction / cosine;
    let lock = 1.0 - sine * sine * beta * beta;
    if lock <= 0.0 || sine * beta >= 1.0 {
        return None;
    }
    let across =
        (sine * sine * a * a - 2.0 * sine * a * weight_to_centre + weight_across_squared).max(0.0);
    let q = beta * sine * (sine * a - weight_to_centre);
    let side_force = (q + (q * q + lock * across).max(0.0).sqrt()) / lock;
    let tension_ahead =
        load.tension_behind + (weight_along + load.drag + load.friction * side_force) / cosine;
    Some(JointBalance { tension_ahead, side_force, angle: 2.0 * sine.min(1.0).asin() })
}
