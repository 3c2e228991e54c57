use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI};

use pipe::end_thrust;
use quantity::{Angle, ForcePerLength, Length, Pressure, UnitWeight, show, unit};

use crate::ServiceError;
use crate::error::{between, finite, not_negative, positive, within};

/// Whether the pipe lies in a loose polyethylene sleeve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encasement {
    /// Bare or coated pipe.
    None,
    /// Polyethylene sleeve.
    Polyethylene,
}

impl Encasement {
    /// Share of the friction that is left; 0.7 from memory.
    #[must_use]
    pub const fn friction_share(self) -> f64 {
        match self {
            Encasement::None => 1.0,
            Encasement::Polyethylene => 0.7,
        }
    }
}

/// Inputs of the US form, [`restrained_length_bearing`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// Test pressure.
    pub pressure: Pressure,
    /// Outside diameter.
    pub outside_diameter: Length,
    /// Angle of a bend; `None` for a dead end or a tee.
    pub bend_angle: Option<Angle>,
    /// Cover over the crown.
    pub cover: Length,
    /// Unit weight of the backfill.
    pub unit_weight: UnitWeight,
    /// Friction angle of the soil.
    pub friction_angle: Angle,
    /// Ratio of pipe friction angle to soil friction angle.
    pub friction_ratio: f64,
    /// Cohesion of the soil.
    pub cohesion: Pressure,
    /// Ratio of adhesion on the pipe to cohesion.
    pub adhesion_ratio: f64,
    /// Share of the passive pressure that the trench gives, K_n.
    pub passive_share: f64,
    /// Weight of the pipe.
    pub pipe_weight: ForcePerLength,
    /// Weight of the water in it.
    pub water_weight: ForcePerLength,
    /// Encasement.
    pub encasement: Encasement,
    /// Safety factor.
    pub safety: f64,
}

/// Terms and result of [`restrained_length_bearing`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BearingTerms {
    /// Thrust p A.
    pub thrust: f64,
    /// Friction per length F_f, N/m.
    pub friction: f64,
    /// Bearing per length R_s, N/m; zero for a dead end.
    pub bearing: f64,
    /// Length to restrain on each side.
    pub length: Length,
}

/// Length to restrain beside a bend or behind a dead end: friction and bearing (US form).
///
/// ```text
/// bend:      L = S_f p A tan(θ/2) / ( F_f + R_s/2 )
/// dead end:  L = S_f p A / F_f
/// F_f = [ (π D/2) f_c C_s + W tan(f_φ φ) ] · (0.7 if encased),   W = 2 γ H D + W_p + W_w
/// R_s = K_n P_p D,   P_p = γ H_c N_φ + 2 C_s √N_φ,   H_c = H + D/2,   N_φ = tan²(45° + φ/2)
/// ```
/// A = π D²/4 of the outside diameter; the symbols are the fields of [`Bearing`] in their order.
///
/// Friction in a bore full of fluid is near zero until it is grouted: take nothing from inside the
/// bore.
///
/// # Source
/// US Army ETL 1110-3-446 appendix C, read for the first line; the terms from memory (industry
/// manual, 6th edition 2006).
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument; friction must not vanish.
/// # Checked by
/// `cases/service/restrained-length-bearing.toml` (computed).
pub fn restrained_length_bearing(b: &Bearing) -> Result<BearingTerms, ServiceError> {
    let d = positive("outside diameter", b.outside_diameter.si(), unit::MM)?;
    let h = positive("cover", b.cover.si(), unit::M)?;
    let gamma = positive("unit weight", b.unit_weight.si(), unit::KN_PER_M3)?;
    let phi = b.friction_angle.si();
    within("friction angle", phi, unit::DEG, (0.0..FRAC_PI_2).contains(&phi), || {
        format!("0 or more and less than {}", show(FRAC_PI_2, unit::DEG))
    })?;
    let ratio = between("friction ratio", b.friction_ratio, unit::ONE, 0.0, 1.0)?;
    let cohesion = not_negative("cohesion", b.cohesion.si(), unit::KPA)?;
    let adhesion = between("adhesion ratio", b.adhesion_ratio, unit::ONE, 0.0, 1.0)?;
    let passive = between("passive share", b.passive_share, unit::ONE, 0.0, 1.0)?;
    let pipe = not_negative("pipe weight", b.pipe_weight.si(), unit::KN_PER_M)?;
    let water = not_negative("water weight", b.water_weight.si(), unit::KN_PER_M)?;
    let safety = positive("safety factor", b.safety, unit::ONE)?;
    let thrust = end_thrust(b.pressure, b.outside_diameter)?.si();
    let weight = 2.0 * gamma * h * d + pipe + water;
    let plain = PI * d / 2.0 * adhesion * cohesion + weight * (ratio * phi).tan();
    let friction = plain * b.encasement.friction_share();
    within("friction per length", friction, unit::KN_PER_M, friction > 0.0, || {
        "greater than 0: give friction or adhesion".to_owned()
    })?;
    let n = (FRAC_PI_4 + phi / 2.0).tan().powi(2);
    let (tangent, bearing) = match b.bend_angle {
        None => (1.0, 0.0),
        Some(angle) => {
            let theta = angle.si();
            within("bend angle", theta, unit::DEG, theta > 0.0 && theta < PI, || {
                format!("greater than 0 and less than {}", show(PI, unit::DEG))
            })?;
            let passive_pressure = gamma * (h + d / 2.0) * n + 2.0 * cohesion * n.sqrt();
            ((theta / 2.0).tan(), passive * passive_pressure * d)
        }
    };
    let length = finite("length", safety * thrust * tangent / (friction + bearing / 2.0))?;
    Ok(BearingTerms { thrust, friction, bearing, length: Length::from_si(length) })
}

/// Inputs of the German form, [`restrained_length_bisector`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bisector {
    /// Test pressure.
    pub pressure: Pressure,
    /// Outside diameter.
    pub outside_diameter: Length,
    /// Angle of a bend; `None` for a dead end or a tee.
    pub bend_angle: Option<Angle>,
    /// Cover over the crown.
    pub cover: Length,
    /// Unit weight of the backfill.
    pub unit_weight: UnitWeight,
    /// Friction of the pipe in the soil, μ.
    pub friction: f64,
    /// Weight of the pipe.
    pub pipe_weight: ForcePerLength,
    /// Weight of the water in it.
    pub water_weight: ForcePerLength,
    /// Pressure that the trench wall may bear.
    pub soil_pressure: Pressure,
    /// Length of leg on which it acts.
    pub passive_length: Length,
}

/// Length to restrain beside a bend or behind a dead end: balance along the bisector (German form).
///
/// ```text
/// L = [ N − E / tan(α/2) ] / r
/// N = p π DE²/4,   E = σ_h DE l_p,   r = μ (2 γ H DE + w_pipe + w_water)
/// ```
/// Dead end and tee: no E. The rule asks for at least two joints, 12 m; this function returns the
/// calculated length, which may be less, zero or negative.
///
/// # Source
/// Reconstruction of the tables of DVGW GW 368 (June 2002 short form, read) from equilibrium: the
/// thrust `2 N sin(α/2)` along the bisector is met by friction of the legs and by passive soil on
/// them. γ = 19.5 kN/m³ and l_p = 2.1 m were *fitted* to the print, whose 44 values at hand come
/// out within 1 m; neither is quoted from the standard.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument; friction must not be zero (restrain the whole
/// line then).
/// # Checked by
/// published table: `cases/service/gw368-restrained-length.toml`.
pub fn restrained_length_bisector(b: &Bisector) -> Result<Length, ServiceError> {
    let d = positive("outside diameter", b.outside_diameter.si(), unit::MM)?;
    let h = positive("cover", b.cover.si(), unit::M)?;
    let gamma = positive("unit weight", b.unit_weight.si(), unit::KN_PER_M3)?;
    let mu = positive("friction", b.friction, unit::ONE)?;
    let pipe = not_negative("pipe weight", b.pipe_weight.si(), unit::KN_PER_M)?;
    let water = not_negative("water weight", b.water_weight.si(), unit::KN_PER_M)?;
    let sigma = not_negative("soil pressure", b.soil_pressure.si(), unit::KPA)?;
    let passive = not_negative("passive length", b.passive_length.si(), unit::M)?;
    let thrust = end_thrust(b.pressure, b.outside_diameter)?.si();
    let relief = match b.bend_angle {
        None => 0.0,
        Some(angle) => {
            let alpha = angle.si();
            within("bend angle", alpha, unit::DEG, alpha > 0.0 && alpha < PI, || {
                format!("greater than 0 and less than {}", show(PI, unit::DEG))
            })?;
            sigma * d * passive / (alpha / 2.0).tan()
        }
    };
    let resistance = mu * (2.0 * gamma * h * d + pipe + water);
    finite("length", (thrust - relief) / resistance).map(Length::from_si)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn bearing() -> Bearing {
        Bearing {
            pressure: Pressure::bar(15.0),
            outside_diameter: Length::millimetres(326.0),
            bend_angle: Some(Angle::degrees(90.0)),
            cover: Length::metres(1.2),
            unit_weight: UnitWeight::kilonewtons_per_cubic_metre(18.0),
            friction_angle: Angle::degrees(30.0),
            friction_ratio: 0.5,
            cohesion: Pressure::ZERO,
            adhesion_ratio: 0.0,
            passive_share: 0.4,
            pipe_weight: ForcePerLength::newtons_per_metre(590.0),
            water_weight: ForcePerLength::newtons_per_metre(710.0),
            encasement: Encasement::None,
            safety: 1.5,
        }
    }

    #[test]
    fn the_terms_of_the_worked_example_come_out() {
        let t = restrained_length_bearing(&bearing()).expect("valid");
        assert!((t.thrust / 1e3 - 125.2).abs() < 0.05, "{}", t.thrust);
        assert!((t.friction / 1e3 - 4.12).abs() < 0.01, "{}", t.friction);
        assert!((t.bearing / 1e3 - 9.60).abs() < 0.01, "{}", t.bearing);
        assert!((t.length.si() - 21.05).abs() < 0.05, "{}", t.length.si());
    }

    #[test]
    fn cohesion_adds_to_the_passive_pressure_and_adhesion_to_the_friction() {
        let plain = restrained_length_bearing(&bearing()).expect("valid");
        let cohesion = Pressure::from_si(15e3);
        let b = Bearing { cohesion, ..bearing() };
        let cohesive = restrained_length_bearing(&b).expect("valid");
        // K_n D 2 C_s sqrt(N_phi), with sqrt(N_phi) = tan 60 degrees = sqrt 3 at 30 degrees.
        let more = 0.4 * 0.326 * 2.0 * 15e3 * 3f64.sqrt();
        assert!((cohesive.bearing - plain.bearing - more).abs() < 1e-6 * more);
        assert!((cohesive.friction - plain.friction).abs() < 1e-9, "nothing adheres yet");
        let adhesive =
            restrained_length_bearing(&Bearing { adhesion_ratio: 0.6, ..b }).expect("valid");
        // pi D / 2 f_c C_s: half of the circumference.
        let more = PI * 0.326 / 2.0 * 0.6 * 15e3;
        assert!((adhesive.friction - plain.friction - more).abs() < 1e-6 * more);
        assert!((adhesive.bearing - cohesive.bearing).abs() < 1e-9);
        let length = 1.5 * adhesive.thrust / (adhesive.friction + adhesive.bearing / 2.0);
        assert!((adhesive.length.si() / length - 1.0).abs() < 1e-12);
    }

    #[test]
    fn clay_without_friction_holds_by_adhesion_alone() {
        let clay = Bearing {
            bend_angle: None,
            friction_angle: Angle::ZERO,
            cohesion: Pressure::from_si(18e3),
            adhesion_ratio: 0.8,
            ..bearing()
        };
        let terms = restrained_length_bearing(&clay).expect("valid");
        assert!((terms.friction - PI * 0.326 / 2.0 * 0.8 * 18e3).abs() < 1e-6);
        assert!((terms.length.si() - 25.468_75).abs() < 1e-9, "{}", terms.length.si());
        let sleeved = Bearing { encasement: Encasement::Polyethylene, ..clay };
        let terms = restrained_length_bearing(&sleeved).expect("valid");
        assert!((terms.length.si() - 25.468_75 / 0.7).abs() < 1e-9, "{}", terms.length.si());
    }

    #[test]
    fn soil_without_friction_and_adhesion_is_refused() {
        let b = Bearing { friction_angle: Angle::ZERO, ..bearing() };
        let e = restrained_length_bearing(&b).expect_err("accepted").to_string();
        assert!(e.contains("friction per length must be greater than 0"), "{e}");
    }

    proptest! {
        #[test]
        fn sharper_bends_and_looser_soil_need_more_restraint(
            angle in 5.0f64..85.0, share in 0.0f64..0.9,
        ) {
            let at = |degrees: f64, share: f64| {
                let b = Bearing {
                    bend_angle: Some(Angle::degrees(degrees)), passive_share: share, ..bearing()
                };
                restrained_length_bearing(&b).unwrap().length
            };
            prop_assert!(at(angle + 1.0, share) > at(angle, share));
            prop_assert!(at(angle, share + 0.1) < at(angle, share));
            let end = restrained_length_bearing(&Bearing { bend_angle: None, ..bearing() });
            prop_assert!(end.unwrap().length > at(angle, share));
        }
    }
}
