use glam::DVec3;
use quantity::{Angle, Length, show, unit};

use crate::FormulaError;
use crate::formula_error::{not_negative, positive, require};
use crate::station::{angle_between, attitude, direction};
use crate::survey::Attitude;

/// A turn of the bore: how much and in which direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steering {
    /// Angle between the directions before and after.
    pub dogleg: Angle,
    /// Direction of the turn seen along the bore: 0 up, 90 degrees right, 180 down, −90 left;
    /// within ±180 degrees.
    pub toolface: Angle,
}

/// Direction of the bore after a turn at a toolface.
///
/// ```text
/// sin P2 = sin P1 cos b + cos P1 sin b cos T
/// ΔA     = atan2( sin b sin T,  cos P1 cos b − sin P1 sin b cos T )
/// ```
/// | symbol | meaning                        | unit | argument           |
/// |--------|--------------------------------|------|--------------------|
/// | P, A   | inclination, azimuth           | rad  | `from`, returned   |
/// | b      | dogleg                         | rad  | `steering.dogleg`  |
/// | T      | toolface, 0 up, positive right | rad  | `steering.toolface`|
///
/// Valid for |P1| < 90° and 0 ≤ b < 180°. Evaluated with vectors, which lose no digits near the
/// vertical.
///
/// # Source
/// Spherical trigonometry, derived; the standard relation of directional drilling with I = P + 90°.
/// Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/survey/steer.toml`; property: [`toolface`] gives the turn back.
pub fn steer(from: Attitude, steering: Steering) -> Result<Attitude, FormulaError> {
    let (t, up, right) = frame("inclination", from)?;
    let (b, toolface) = (steering.dogleg.si(), steering.toolface.si());
    let holds = (0.0..std::f64::consts::PI).contains(&b);
    require(holds, "dogleg", b, unit::DEG, "0 deg or more and less than 180 deg")?;
    let holds = toolface.abs() <= std::f64::consts::TAU * (1.0 + 1e-15);
    require(holds, "toolface", toolface, unit::DEG, "-360 deg to 360 deg")?;
    let (sin_t, cos_t) = toolface.sin_cos();
    let (sin_b, cos_b) = b.sin_cos();
    let (inclination, azimuth) = attitude(t * cos_b + (up * cos_t + right * sin_t) * sin_b);
    Ok(Attitude { inclination: Angle::from_si(inclination), azimuth: Angle::from_si(azimuth) })
}

/// Share of a rod that is pushed without rotation, the rest drilled straight, so that the bore turns
/// by a dogleg.
///
/// ```text
/// q = b R / a
/// ```
/// | symbol | meaning                                     | unit | argument      |
/// |--------|---------------------------------------------|------|---------------|
/// | q      | share of the rod                            | –    | returned      |
/// | b      | dogleg that the rod has to give             | rad  | `dogleg`      |
/// | R      | radius that the tool steers when pushed     | m    | `tool_radius` |
/// | a      | length of the rod                           | m    | `rod_length`  |
///
/// A share above 1 is refused: the tool cannot turn so much within the rod.
///
/// # Source
/// Length of an arc, derived. Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/survey/slide-share.toml`.
pub fn slide_share(
    dogleg: Angle,
    tool_radius: Length,
    rod_length: Length,
) -> Result<f64, FormulaError> {
    let b = not_negative("dogleg", dogleg.si(), unit::DEG)?;
    let r = positive("tool radius", tool_radius.si(), unit::M)?;
    let a = positive("rod length", rod_length.si(), unit::M)?;
    let most = format!("at most {}, the rod over the tool's radius", show(a / r, unit::DEG));
    let share = b * r / a;
    require(share <= 1.0 + 1e-12, "dogleg", b, unit::DEG, most)?;
    Ok(share)
}

/// The turn that leads from one direction to another: the inverse of [`steer`].
///
/// ```text
/// T = atan2( cos P2 sin ΔA,  cos P1 sin P2 − sin P1 cos P2 cos ΔA ),   b = 2 asin( |t2 − t1|/2 )
/// ```
/// Symbols and source as for [`steer`].
///
/// # Errors
/// [`FormulaError::OutOfRange`] for an inclination, and where both directions agree: such a turn
/// has no toolface.
pub fn toolface(from: Attitude, to: Attitude) -> Result<Steering, FormulaError> {
    let (t1, up, right) = frame("inclination before", from)?;
    let (t2, ..) = frame("inclination after", to)?;
    let dogleg = angle_between(t1, t2);
    let allowed = "greater than 0 deg: without a turn there is no toolface";
    require(dogleg > 0.0, "angle between the directions", dogleg, unit::DEG, allowed)?;
    Ok(Steering {
        dogleg: Angle::from_si(dogleg),
        toolface: Angle::from_si(t2.dot(right).atan2(t2.dot(up))),
    })
}

/// Unit vectors along the bore, upwards and to the right.
fn frame(
    quantity: &'static str,
    attitude: Attitude,
) -> Result<(DVec3, DVec3, DVec3), FormulaError> {
    let (p, a) = (attitude.inclination.si(), attitude.azimuth.si());
    let holds = p.abs() < std::f64::consts::FRAC_PI_2;
    require(holds, quantity, p, unit::DEG, "greater than -90 deg and less than 90 deg")?;
    let holds = a.abs() <= std::f64::consts::TAU * (1.0 + 1e-15);
    require(holds, "azimuth", a, unit::DEG, "-360 deg to 360 deg")?;
    let along = direction(p, a);
    let right = DVec3::new(a.cos(), -a.sin(), 0.0);
    Ok((along, right.cross(along), right))
}
