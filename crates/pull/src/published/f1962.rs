//! The four-point form of ASTM F1962.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_8};

use quantity::{Angle, Force, ForcePerLength, Length, Pressure, unit};
use working::Evidence;

use super::{Method, PublishedError, range};

/// The F1962 form.
pub const F1962_METHOD: Method = Method {
    name: "F1962, four points",
    document: "ASTM F1962 as restated in Najafi, Trenchless Technology Piping, eq. 5.12a-d, p. 217",
    evidence: Evidence::Published,
    validity: "made for polyethylene on large rigs: bends only as capstan factors, no pipe \
               stiffness, no fluid stress along the pipe; reported low for long steel crossings",
};

/// The hydrokinetic term.
pub const HYDROKINETIC: Method = Method {
    name: "F1962, hydrokinetic term",
    document: "ASTM F1962, hydrokinetic pressure on the annulus",
    evidence: Evidence::FromMemory,
    validity: "one force for the whole pull, independent of length; pressures of 30 to 70 kPa are \
               quoted for it",
};

/// Inputs of [`f1962`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct F1962 {
    /// Weight of the pipe in air, w_a.
    pub weight_air: ForcePerLength,
    /// Net upward force on the pipe in the bore, w_b; negative where the pipe sinks.
    pub weight_net_up: ForcePerLength,
    /// Length of pipe behind the crossing, L1.
    pub extra_length: Length,
    /// Horizontal length of the descent at the pipe side, L2.
    pub transition_pipe_side: Length,
    /// Length of the level run, L3.
    pub level_length: Length,
    /// Horizontal length of the ascent at the rig side, L4.
    pub transition_rig_side: Length,
    /// Depth of the level run below the pipe side, H; the form has one depth and takes both ends at one level.
    pub depth: Length,
    /// Depth of the level run below the rig side, where it differs; it takes the place of H on the way up.
    pub depth_rig_side: Length,
    /// Angle of the bore at the pipe side to the horizontal, α.
    pub angle_pipe_side: Angle,
    /// Angle of the bore at the rig side to the horizontal, β.
    pub angle_rig_side: Angle,
    /// Friction above ground, v_a.
    pub friction_surface: f64,
    /// Friction in the bore, v_b.
    pub friction_bore: f64,
}

/// Place of the pulling head in the F1962 form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum F1962Place {
    /// Bore mouth at the pipe side.
    A,
    /// End of the descent.
    B,
    /// End of the level run.
    C,
    /// Bore mouth at the rig side.
    D,
}

/// Pull at the head in four places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct F1962Forces {
    /// With the head at the bore mouth of the pipe side.
    pub a: Force,
    /// With the head at the end of the descent.
    pub b: Force,
    /// With the head at the end of the level run.
    pub c: Force,
    /// With the head at the bore mouth of the rig side.
    pub d: Force,
}

impl F1962Forces {
    /// The greatest of the four and where it acts; the first of equal ones.
    #[must_use]
    pub fn peak(&self) -> (Force, F1962Place) {
        let rest = [(self.b, F1962Place::B), (self.c, F1962Place::C), (self.d, F1962Place::D)];
        rest.into_iter()
            .fold((self.a, F1962Place::A), |best, next| if next.0 > best.0 { next } else { best })
    }

    /// The same forces with the hydrokinetic term added to each.
    #[must_use]
    pub fn plus(&self, hydrokinetic: Force) -> Self {
        let Self { a, b, c, d } = *self;
        Self { a: a + hydrokinetic, b: b + hydrokinetic, c: c + hydrokinetic, d: d + hydrokinetic }
    }
}

/// Pull at the head in the four places of ASTM F1962, without the hydrokinetic term.
///
/// ```text
/// T_A = e^(v_a·α)·v_a·w_a·(L1 + L2 + L3 + L4)
/// T_B = e^(v_b·α)·( T_A + v_b·|w_b|·L2 + w_b·H − v_a·w_a·L2·e^(v_a·α) )
/// T_C = T_B + v_b·|w_b|·L3 − e^(v_b·α)·v_a·w_a·L3·e^(v_a·α)
/// T_D = e^(v_b·β)·( T_C + v_b·|w_b|·L4 − w_b·H − e^(v_b·α)·v_a·w_a·L4·e^(v_a·α) )
/// ```
/// | symbol     | meaning                                        | unit | argument                 |
/// |------------|------------------------------------------------|------|--------------------------|
/// | T_A … T_D  | pull at the head                               | N    | returned                 |
/// | w_a, w_b   | weight in air; net upward force in the bore    | N/m  | `weight_air`, `weight_net_up` |
/// | L1 … L4    | pipe behind; descent; level; ascent            | m    | `extra_length` …         |
/// | H          | depth of the level run                         | m    | `depth`                  |
/// | α, β       | bore angle at the pipe side, at the rig side   | rad  | `angle_pipe_side` …      |
/// | v_a, v_b   | friction above ground, in the bore             | –    | `friction_surface` …     |
///
/// Valid for angles from 0 to below 90°, friction from 0 to 1, lengths and depth not negative. A negative result is
/// returned as it is: the pipe then runs down by its own weight.
///
/// # Source
/// [`F1962_METHOD`]. Deviation: none. Friction is quoted as 0.5 on the ground, 0.1 on rollers, 0.3 in the bore by
/// one source and as 0.40 and 0.25 by another.
/// # Errors
/// [`PublishedError::OutOfRange`] with the input, its value and the range; `NotFinite` on overflow.
/// # Checked by
/// `cases/pull/f1962-one-third-rule.toml`, `cases/pull/f1962-ductile-iron.toml`; property: T_D does not depend on v_a
/// without extra length.
pub fn f1962(given: &F1962) -> Result<F1962Forces, PublishedError> {
    let angle = |name, a: Angle| range::within(name, a.si(), (0.0, FRAC_PI_2 * 0.999), unit::DEG);
    let length = |name, l: Length| range::not_negative(name, l.si(), unit::M);
    let w_a = range::not_negative("weight air", given.weight_air.si(), unit::N_PER_M)?;
    let w_b = range::any("weight net up", given.weight_net_up.si(), unit::N_PER_M)?;
    let l1 = length("extra length", given.extra_length)?;
    let l2 = length("transition pipe side", given.transition_pipe_side)?;
    let l3 = length("level length", given.level_length)?;
    let l4 = length("transition rig side", given.transition_rig_side)?;
    let h = length("depth", given.depth)?;
    let h_rig = length("depth rig side", given.depth_rig_side)?;
    let alpha = angle("angle pipe side", given.angle_pipe_side)?;
    let beta = angle("angle rig side", given.angle_rig_side)?;
    let v_a = range::friction("friction surface", given.friction_surface)?;
    let v_b = range::friction("friction bore", given.friction_bore)?;

    // Written as the source prints them, term by term, so that the two can be held side by side.
    let surface = (v_a * alpha).exp();
    let t_a = surface * v_a * w_a * (l1 + l2 + l3 + l4);
    let into = (v_b * alpha).exp();
    let t_b = into * (t_a + v_b * w_b.abs() * l2 + w_b * h - v_a * w_a * l2 * surface);
    let t_c = t_b + v_b * w_b.abs() * l3 - into * (v_a * w_a * l3 * surface);
    let out_of = (v_b * beta).exp();
    let t_d =
        out_of * (t_c + v_b * w_b.abs() * l4 - w_b * h_rig - into * (v_a * w_a * l4 * surface));
    let force = |name, t| range::result(name, t).map(Force::newtons);
    Ok(F1962Forces {
        a: force("force a", t_a)?,
        b: force("force b", t_b)?,
        c: force("force c", t_c)?,
        d: force("force d", t_d)?,
    })
}

/// Horizontal length of a circular descent or ascent between the surface and the level run.
///
/// ```text
/// L = 2·H / α        (small angles; the radius is then L / α)
/// ```
/// | symbol | meaning                             | unit | argument |
/// |--------|-------------------------------------|------|----------|
/// | L      | horizontal length of the transition | m    | returned |
/// | H      | depth of the level run              | m    | `depth`  |
/// | α      | bore angle at the surface           | rad  | `angle`  |
///
/// Valid for 0 < α < 90°; meant for angles up to about 20°, where it is 1 % longer than the exact arc.
///
/// # Source
/// ASTM F1962, average radius 2·H/α², from memory.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// the transition of the third split in `cases/pull/f1962-one-third-rule.toml` (171.887 ft from 30 ft at 20°).
pub fn f1962_transition(depth: Length, angle: Angle) -> Result<Length, PublishedError> {
    let h = range::not_negative("depth", depth.si(), unit::M)?;
    let alpha = range::between("angle", angle.si(), (0.0, FRAC_PI_2), unit::DEG)?;
    range::result("transition", 2.0 * h / alpha).map(Length::metres)
}

/// Force of the drilling fluid's pressure on the annulus, added once to each force of the F1962 form.
///
/// ```text
/// ΔT = Δp·(π/8)·(D_h² − D²)
/// ```
/// | symbol | meaning                    | unit | argument           |
/// |--------|----------------------------|------|--------------------|
/// | ΔT     | hydrokinetic force         | N    | returned           |
/// | Δp     | hydrokinetic pressure      | Pa   | `pressure`         |
/// | D_h    | diameter of the bore       | m    | `hole_diameter`    |
/// | D      | outside diameter of pipe   | m    | `outside_diameter` |
///
/// Valid for D_h ≥ D > 0 and Δp ≥ 0.
///
/// # Source
/// [`HYDROKINETIC`], from memory. Sources quote Δp = 70 kPa and 30 to 60 kPa.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/hydrokinetic.toml`.
pub fn hydrokinetic_force(
    pressure: Pressure,
    hole_diameter: Length,
    outside_diameter: Length,
) -> Result<Force, PublishedError> {
    let dp = range::not_negative("pressure", pressure.si(), unit::KPA)?;
    let d = range::positive("outside diameter", outside_diameter.si(), unit::MM)?;
    let hole = range::positive("hole diameter", hole_diameter.si(), unit::MM)?;
    let hole = range::at_least("hole diameter", hole, d, unit::MM)?;
    range::result("force", dp * FRAC_PI_8 * (hole * hole - d * d)).map(Force::newtons)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn crossing() -> F1962 {
        F1962 {
            weight_air: ForcePerLength::newtons_per_metre(1560.0),
            weight_net_up: ForcePerLength::newtons_per_metre(1856.0),
            extra_length: Length::ZERO,
            transition_pipe_side: Length::metres(104.0),
            level_length: Length::metres(120.0),
            transition_rig_side: Length::metres(102.0),
            depth: Length::metres(14.0),
            depth_rig_side: Length::metres(14.0),
            angle_pipe_side: Angle::degrees(10.0),
            angle_rig_side: Angle::degrees(12.0),
            friction_surface: 0.5,
            friction_bore: 0.3,
        }
    }

    #[test]
    fn a_string_dragged_on_the_ground_peaks_before_the_end() {
        let forces = f1962(&crossing()).unwrap();
        assert_eq!(forces.peak().1, F1962Place::B);
        let rollers = f1962(&F1962 { friction_surface: 0.1, ..crossing() }).unwrap();
        assert_eq!(rollers.peak().1, F1962Place::D);
        let more = rollers.plus(Force::kilonewtons(10.0));
        approx::assert_relative_eq!((more.peak().0 - rollers.peak().0).si(), 1e4, epsilon = 1e-6);
    }

    #[test]
    fn nothing_to_carry_and_nothing_to_drag_needs_no_force() {
        let forces = f1962(&F1962 {
            weight_net_up: ForcePerLength::ZERO,
            friction_surface: 0.0,
            ..crossing()
        })
        .unwrap();
        assert_eq!(forces.peak(), (Force::ZERO, F1962Place::A));
        assert_eq!(forces.d, Force::ZERO);
    }

    #[test]
    fn transition_of_the_worked_split_is_the_printed_one() {
        let l = f1962_transition(Length::feet(30.0), Angle::degrees(20.0)).unwrap();
        assert!((l.to_feet() - 171.887).abs() < 5e-4, "{}", l.to_feet());
        assert!(f1962_transition(Length::metres(3.0), Angle::ZERO).is_err());
    }

    #[test]
    fn inputs_outside_the_range_are_named() {
        let bad = F1962 { friction_bore: 30.0, ..crossing() };
        assert_eq!(
            f1962(&bad).unwrap_err().to_string(),
            "friction bore must be 0 to 1, but was 30"
        );
        let nan = F1962 { weight_net_up: ForcePerLength::from_si(f64::NAN), ..crossing() };
        assert_eq!(f1962(&nan).unwrap_err().quantity(), Some("weight net up"));
        let huge = F1962 { weight_air: ForcePerLength::from_si(1e308), ..crossing() };
        assert!(matches!(f1962(&huge), Err(PublishedError::NotFinite { .. })));
        let small_hole = hydrokinetic_force(
            Pressure::kilopascals(70.0),
            Length::metres(0.5),
            Length::metres(0.6),
        );
        assert_eq!(small_hole.unwrap_err().quantity(), Some("hole diameter"));
    }

    proptest! {
        #[test]
        fn force_at_the_end_does_not_depend_on_surface_friction_without_extra_length(
            w_a in 10.0f64..5e3, w_b in -3e3f64..8e3, l2 in 0.0f64..400.0, l3 in 0.0f64..800.0,
            l4 in 0.0f64..400.0, h in 0.0f64..60.0, alpha in 0.0f64..30.0, beta in 0.0f64..30.0,
            v_a in 0.0f64..1.0, other in 0.0f64..1.0, v_b in 0.0f64..1.0,
        ) {
            let one = F1962 {
                weight_air: ForcePerLength::from_si(w_a),
                weight_net_up: ForcePerLength::from_si(w_b),
                extra_length: Length::ZERO,
                transition_pipe_side: Length::metres(l2),
                level_length: Length::metres(l3),
                transition_rig_side: Length::metres(l4),
                depth: Length::metres(h),
                depth_rig_side: Length::metres(h),
                angle_pipe_side: Angle::degrees(alpha),
                angle_rig_side: Angle::degrees(beta),
                friction_surface: v_a,
                friction_bore: v_b,
            };
            let first = f1962(&one).unwrap();
            let second = f1962(&F1962 { friction_surface: other, ..one }).unwrap();
            let scale = first.a.si().max(second.a.si()).max(first.b.si().abs()).max(1.0);
            prop_assert!((first.d - second.d).si().abs() <= 1e-12 * scale);
        }
    }
}
