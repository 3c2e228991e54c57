use quantity::{Angle, Length, unit};

use crate::FormulaError;
use crate::formula_error::{not_negative, positive, require};

/// State of a bore after a number of rods: some straight, then an arc up to the horizontal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RodPlan {
    /// Change of inclination over one rod on the arc.
    pub turn_per_rod: Angle,
    /// Rods on the arc until the bore is level; a fraction counts.
    pub rods_to_level: f64,
    /// Inclination after the rods asked for, negative while the bore goes down.
    pub inclination: Angle,
    /// Depth below the entry point.
    pub depth: Length,
    /// Horizontal distance from the entry point.
    pub setback: Length,
}

/// Inclination, depth and setback after a number of rods; the bore stays level once it is.
///
/// ```text
/// δ = l/R,   n_level = β/δ,   θ = min( max(n − n0, 0)·δ, β ),   P = θ − β
/// depth   = l_s sin β + R ( cos P − cos β ),    l_s = l · min(n, n0)
/// setback = l_s cos β + R ( sin β + sin P ) + l · max(n − n0 − n_level, 0)
/// ```
/// | symbol | meaning                            | unit | argument        |
/// |--------|------------------------------------|------|-----------------|
/// | l      | length of a rod                    | m    | `rod_length`    |
/// | R      | radius of the arc                  | m    | `radius`        |
/// | β      | entry angle                        | rad  | `entry_angle`   |
/// | n0     | rods drilled straight first        | –    | `straight_rods` |
/// | n      | rods drilled in all                | –    | `rods`          |
/// | δ, P   | turn per rod, inclination after n  | rad  | returned        |
///
/// Valid for l, R > 0, 0 < β < 90°, n0, n ≥ 0; fractions of rods count.
///
/// # Source
/// Circular arc, exact. Turn per rod as in Najafi, Trenchless Technology Piping, eq. 5.11, p. 215.
/// Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/geometry/rod-plan.toml`; test: with n0 = 1 the level depth is that of `first_level`.
pub fn rod_plan(
    rod_length: Length,
    radius: Length,
    entry_angle: Angle,
    straight_rods: f64,
    rods: f64,
) -> Result<RodPlan, FormulaError> {
    let l = positive("rod length", rod_length.si(), unit::M)?;
    let r = positive("radius", radius.si(), unit::M)?;
    let beta = crate::first_level::steep(entry_angle, "entry angle")?;
    let n0 = not_negative("number of straight rods", straight_rods, unit::ONE)?;
    let n = not_negative("number of rods", rods, unit::ONE)?;
    let turn = l / r;
    let to_level = beta / turn;
    let on_arc = (n - n0).max(0.0);
    let inclination = if on_arc >= to_level { 0.0 } else { on_arc * turn - beta };
    let straight = l * n.min(n0);
    let level = l * (on_arc - to_level).max(0.0);
    Ok(RodPlan {
        turn_per_rod: Angle::from_si(turn),
        rods_to_level: to_level,
        inclination: Angle::from_si(inclination),
        depth: Length::from_si(straight * beta.sin() + r * (inclination.cos() - beta.cos())),
        setback: Length::from_si(
            straight * beta.cos() + r * (beta.sin() + inclination.sin()) + level,
        ),
    })
}

/// One rod between two readings of grade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RodStep {
    /// Mean of the two grades.
    pub mean_grade: Angle,
    /// How much deeper the end lies, as one arc; negative where the rod rises.
    pub depth: Length,
    /// The same by the crews' arithmetic, which takes the grade for the sine.
    pub depth_field: Length,
    /// Radius of the rod's arc; `None` where both grades agree.
    pub radius: Option<Length>,
}

/// Mean grade, change of depth and radius of one rod, from the grades at its ends (positive
/// downwards).
///
/// ```text
/// p_m = (p1 + p2)/2,   P = atan p,   b = |P2 − P1|
/// depth = l · sin( (P1 + P2)/2 ) · sin(b/2)/(b/2)        one arc
/// crews:  depth ≈ l · p_m,    R = l / b
/// ```
/// | symbol | meaning                | unit | argument     |
/// |--------|------------------------|------|--------------|
/// | l      | length of the rod      | m    | `rod_length` |
/// | p1, p2 | grades (tangents) at its ends | – | `begin`, `end`, as angles |
/// | R      | radius                 | m    | returned     |
///
/// Valid for l > 0 and |P| < 90°. The crews' arithmetic is 0.5 % too deep at 10 % and 3 % too deep
/// at 25 %.
///
/// # Source
/// Field rule: a trade article on bore plans and one locator manufacturer's manual; radius: Najafi,
/// Trenchless Technology Piping, eq. 5.11, p. 215. Exact form derived.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/geometry/rod-step-trade-article.toml`, `…-locator-manual.toml`, `…-najafi-p215.toml`,
/// `…-exact.toml`.
pub fn rod_step(rod_length: Length, begin: Angle, end: Angle) -> Result<RodStep, FormulaError> {
    let l = positive("rod length", rod_length.si(), unit::M)?;
    let (p1, p2) = (slope("grade at the beginning", begin)?, slope("grade at the end", end)?);
    let mean = 0.5 * (p1.tan() + p2.tan());
    let half = 0.5 * (p2 - p1).abs();
    let ratio = if half < 1e-4 { 1.0 - half * half / 6.0 } else { half.sin() / half };
    let radius = l / (2.0 * half);
    Ok(RodStep {
        mean_grade: Angle::from_si(mean.atan()),
        depth: Length::from_si(l * (0.5 * (p1 + p2)).sin() * ratio),
        depth_field: Length::from_si(l * mean),
        radius: (half > 0.0 && radius.is_finite()).then(|| Length::from_si(radius)),
    })
}

fn slope(quantity: &'static str, angle: Angle) -> Result<f64, FormulaError> {
    let si = angle.si();
    let holds = si.abs() < std::f64::consts::FRAC_PI_2;
    require(holds, quantity, si, unit::DEG, "greater than -90 deg and less than 90 deg")?;
    Ok(si)
}

/// State of a bore that flattens by the same grade at every rod.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GradePlan {
    /// Grade after the rods asked for, positive downwards.
    pub grade: Angle,
    /// Depth below the entry point.
    pub depth: Length,
    /// Rods in all until the bore is level.
    pub rods_to_level: f64,
    /// Depth at which the bore is level.
    pub level_depth: Length,
}

/// Most rods that are added up one by one.
// Judgement: ten thousand rods are a bore of 30 km; beyond it the answer is an error, not a long
// wait.
const MOST_RODS: f64 = 10_000.0;

/// Grade and depth after a number of rods when every rod takes the same amount off the grade, as
/// crews plan it.
///
/// ```text
/// depth = Σ l_i sin( atan p_m,i ),   p_m,i mean grade of rod i
/// ```
/// | symbol | meaning                                   | unit | argument         |
/// |--------|-------------------------------------------|------|------------------|
/// | l      | length of a rod                           | m    | `rod_length`     |
/// | p0     | entry grade                               | –    | `entry_grade`    |
/// | Δp     | grade taken off by each rod on the curve  | –    | `grade_per_rod`  |
/// | n0, n  | straight rods first, rods in all          | –    | `straight_rods`, `rods` |
///
/// Grades subtract as tangents, which is how a pitch readout in percent is used. The last rod
/// before the level counts as the fraction it takes. The depth takes each rod as straight at its
/// mean grade; at 8 % per rod the arc differs by less than 0.1 %.
///
/// # Source
/// Operator manuals of one rig manufacturer (practice); exact form derived.
/// # Errors
/// [`FormulaError::OutOfRange`]; also where more than 10 000 rods would have to be added up.
/// # Checked by
/// `cases/geometry/rod-grade-plan-18-percent.toml`, `…-26-percent.toml`, `…-exact.toml`.
pub fn grade_plan(
    rod_length: Length,
    entry_grade: Angle,
    grade_per_rod: Angle,
    straight_rods: f64,
    rods: f64,
) -> Result<GradePlan, FormulaError> {
    let l = positive("rod length", rod_length.si(), unit::M)?;
    let p0 = crate::first_level::steep(entry_grade, "entry grade")?.tan();
    let dp = crate::first_level::steep(grade_per_rod, "grade per rod")?.tan();
    let n0 = not_negative("number of straight rods", straight_rods, unit::ONE)?;
    let n = not_negative("number of rods", rods, unit::ONE)?;
    let on_curve = p0 / dp;
    let rods_to_level = n0 + on_curve;
    let most = "one that makes the bore level within 10000 rods";
    require(on_curve <= MOST_RODS, "grade per rod", grade_per_rod.si(), unit::DEG, most)?;
    let depth_after = |n: f64| {
        let mut depth = l * n.min(n0) * p0.atan().sin();
        let curved = (n - n0).clamp(0.0, on_curve);
        let mut done = 0.0;
        while done < curved {
            let next = (done + 1.0).min(curved);
            let mean = p0 - dp * 0.5 * (done + next);
            depth += l * (next - done) * mean.atan().sin();
            done = next;
        }
        depth
    };
    let curved = (n - n0).clamp(0.0, on_curve);
    let grade = if curved >= on_curve { 0.0 } else { p0 - dp * curved };
    Ok(GradePlan {
        grade: Angle::from_si(grade.atan()),
        depth: Length::from_si(depth_after(n)),
        rods_to_level,
        level_depth: Length::from_si(depth_after(rods_to_level)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first_level;

    #[test]
    fn one_straight_rod_and_an_arc_reach_the_depth_of_first_level() {
        let (l, r, beta) = (Length::feet(10.0), Length::feet(100.0), Angle::degrees(15.0));
        let level = first_level(l, r, beta).unwrap();
        let to_level = 1.0 + rod_plan(l, r, beta, 1.0, 0.0).unwrap().rods_to_level;
        let plan = rod_plan(l, r, beta, 1.0, to_level).unwrap();
        approx::assert_relative_eq!(plan.depth.si(), level.depth.si(), max_relative = 1e-12);
        approx::assert_relative_eq!(plan.setback.si(), level.setback.si(), max_relative = 1e-12);
        let beyond = rod_plan(l, r, beta, 1.0, to_level + 2.0).unwrap();
        assert_eq!(beyond.inclination, Angle::ZERO);
        let along = beyond.setback - plan.setback;
        approx::assert_relative_eq!(along.to_feet(), 20.0, max_relative = 1e-12);
    }

    #[test]
    fn many_small_grade_steps_follow_the_arc() {
        let (l, beta) = (Length::from_si(0.03), Angle::percent_grade(18.0));
        let fine = grade_plan(l, beta, Angle::percent_grade(0.08), 0.0, 1e4).unwrap();
        // dp = 0.08 % per 0.03 m; tan P falls linearly with distance: depth = (l/dp) ∫ sin(atan p)
        // dp.
        let exact = 0.03 / 0.0008 * ((1.0f64 + 0.18 * 0.18).sqrt() - 1.0);
        approx::assert_relative_eq!(fine.level_depth.si(), exact, max_relative = 1e-6);
        assert_eq!(fine.grade, Angle::ZERO);
    }

    #[test]
    fn a_rod_as_an_arc_agrees_with_the_arc_itself() {
        let (l, r) = (3.0, 30.0f64);
        let (begin, end) = (0.25f64, 0.25 - l / r);
        let step =
            rod_step(Length::from_si(l), Angle::from_si(begin), Angle::from_si(end)).unwrap();
        approx::assert_relative_eq!(
            step.depth.si(),
            r * (end.cos() - begin.cos()),
            max_relative = 1e-12
        );
        approx::assert_relative_eq!(step.radius.unwrap().si(), r, max_relative = 1e-12);
        let straight =
            rod_step(Length::from_si(l), Angle::from_si(begin), Angle::from_si(begin)).unwrap();
        assert_eq!(straight.radius, None);
    }
}
