use glam::DVec3;

/// What acts on one joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointLoad {
    /// Unit vector of the barrel behind the joint, pointing to the head.
    pub behind: DVec3,
    /// Unit vector of the barrel ahead of the joint, pointing to the head.
    pub ahead: DVec3,
    /// Unit vector in which the joint slides: the axis of the bore where the joint has play, since the wall runs along
    /// it; the bisector of the barrels where it has none.
    pub along: DVec3,
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
/// T_f e_f − T_b e_b − W z + N n − (μ N + D) t = 0,      n across t
/// along t:    T_f = ( T_b (e_b·t) + W z·t + D + μ N ) / (e_f·t)
/// across t:   N = | T_f e_f⊥ − T_b e_b⊥ − W z⊥ |
/// ```
/// | symbol | meaning                               | unit |
/// |--------|---------------------------------------|------|
/// | T_b, T_f | tension behind and ahead            | N    |
/// | e_b, e_f | unit vectors of the barrels         | –    |
/// | t      | direction of sliding: along the wall, [`JointLoad::along`] | – |
/// | W      | net weight at the joint, positive sinks | N  |
/// | z      | unit vector upwards; ⊥ marks what lies across t | – |
/// | D      | drag                                  | N    |
/// | μ, N   | friction, side force                  | –, N |
///
/// N depends on T_f, which depends on N: a quadratic, solved in closed form. With t the bisector of the barrels and
/// without weight and drag the ratio T_f/T_b is (cos δ/2 + μ sin δ/2)/(cos δ/2 − μ sin δ/2), δ the joint angle.
///
/// Returns `None` where friction grows faster than the pull and the joint locks, and where a barrel stands across t.
///
/// # Source
/// Balance of forces, derived. Checked by: the weightless ratio, the straight incline and the capstan limit in
/// `chain/tests.rs`; `cases/pull/` for the published ratio; an independent solver of the whole chain agreed within 0.1 %
/// in force.
#[must_use]
pub fn joint_balance(load: &JointLoad) -> Option<JointBalance> {
    let t = load.along;
    let (along_behind, along_ahead) = (load.behind.dot(t), load.ahead.dot(t));
    if along_ahead <= 0.0 {
        return None;
    }
    let behind_across = load.behind - t * along_behind;
    let ahead_across = load.ahead - t * along_ahead;
    let up_across = DVec3::Z - t * t.z;

    // T_f = a + β N, and N = |v + β N e_f⊥|.
    let a = (load.tension_behind * along_behind + load.weight * t.z + load.drag) / along_ahead;
    let beta = load.friction / along_ahead;
    let v = a * ahead_across - load.tension_behind * behind_across - load.weight * up_across;
    let lock = 1.0 - beta * beta * ahead_across.length_squared();
    if lock <= 0.0 {
        return None;
    }
    let q = beta * v.dot(ahead_across);
    let side_force = (q + (q * q + lock * v.length_squared()).max(0.0).sqrt()) / lock;
    let sine = 0.5 * (load.ahead - load.behind).length();
    Some(JointBalance {
        tension_ahead: a + beta * side_force,
        side_force,
        angle: 2.0 * sine.min(1.0).asin(),
    })
}
