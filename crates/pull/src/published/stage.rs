//! The European stage form.

use std::f64::consts::PI;

use quantity::{Force, ForcePerLength, Length, Pressure, unit};
use working::Evidence;

use super::{Method, PublishedError, range};

/// The stage form.
pub const STAGE_FORM: Method = Method {
    name: "European stage form",
    document: "NEN 3650 / 3651, pull force stage by stage; structure, friction values \
         and factor are remembered",
    evidence: Evidence::FromMemory,
    validity: "meant for crossings of steel and plastic pipe; no term for the slope of the bore; \
               an overall factor of 1.4 goes with it",
};

/// Inputs of [`stage_form`] that hold for the whole pull.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StageForm {
    /// Outside diameter of the pipe.
    pub outside_diameter: Length,
    /// Weight of the pipe on the rollers.
    pub weight_air: ForcePerLength,
    /// Net weight in the fluid; its magnitude counts.
    pub net_weight: ForcePerLength,
    /// Length of string on the rollers before the pull.
    pub string_length: Length,
    /// Friction on the rollers, f₁; 0.1 in the form.
    pub friction_rollers: f64,
    /// Fluid stress on the pipe, f₂; 50 Pa in the form.
    pub fluid_stress: Pressure,
    /// Friction on the wall of the bore, f₃; 0.2 in the form.
    pub friction_bore: f64,
    /// Factor on the result; 1.4 in the form, 1 for none.
    pub overall_factor: f64,
}

/// One stage: a stretch of bore, straight or bent, from the pipe side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// Length of the stretch.
    pub length: Length,
    /// The bend, if it is one.
    pub bend: Option<StageBend>,
}

/// A bend of the stage form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StageBend {
    /// Radius.
    pub radius: Length,
    /// Sum of the soil's reactions to the pipe's stiffness: twice the `step_force` of [`super::bend_reaction`] for a stiff
    /// pipe, zero for free joints.
    pub reaction: Force,
}

/// Pull with the head at the end of one stage, and its shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StageForces {
    /// Rollers under what is still outside, T₁.
    pub rollers: Force,
    /// Wall friction of the net weight and fluid stress, T₂.
    pub along: Force,
    /// Soil reaction from bending, T₃ₐ.
    pub bending: Force,
    /// Pull pressed into the bends, T₃ᵦ.
    pub curvature: Force,
    /// Sum of the four.
    pub total: Force,
    /// Sum times the overall factor.
    pub design: Force,
}

/// Pull by the European stage form; the first entry is the start, then one for each stage.
///
/// ```text
/// T  = T₁ + T₂ + T₃ₐ + T₃ᵦ
/// T₁  = f₁·q·L_outside
/// T₂  = Σ L·(π·D·f₂ + |w|·f₃)
/// T₃ₐ = Σ f₃·Q              each bend behind the head
/// T₃ᵦ = Σ f₃·L_b·T_b/R      each bend behind the head; T_b the pull where the bend begins
/// ```
/// | symbol | meaning                                   | unit | argument          |
/// |--------|-------------------------------------------|------|-------------------|
/// | q, w   | weight on rollers; net weight in the bore | N/m  | `weight_air`, `net_weight` |
/// | f₁, f₃ | friction on rollers, in the bore          | –    | `friction_rollers`, `friction_bore` |
/// | f₂     | fluid stress                              | Pa   | `fluid_stress`    |
/// | L, L_b | length of a stage, of a bend              | m    | `length`          |
/// | R, Q   | radius; reaction of the soil              | m, N | `bend`            |
///
/// T₃ᵦ is the capstan law to first order. Valid for lengths and forces not negative, friction from 0 to 1, factor of 1
/// or more.
///
/// # Source
/// [`STAGE_FORM`], from memory; to be confirmed before it decides anything.
/// # Errors
/// [`PublishedError::OutOfRange`], inside `InPart` for a stage.
/// # Checked by
/// `cases/pull/stage-form.toml` (computed); property: without bends it is the sum of rollers and straight friction.
pub fn stage_form(given: &StageForm, stages: &[Stage]) -> Result<Vec<StageForces>, PublishedError> {
    let d = range::positive("outside diameter", given.outside_diameter.si(), unit::MM)?;
    let q = range::not_negative("weight air", given.weight_air.si(), unit::N_PER_M)?;
    let w = range::any("net weight", given.net_weight.si(), unit::N_PER_M)?.abs();
    let string = range::not_negative("string length", given.string_length.si(), unit::M)?;
    let f1 = range::friction("friction rollers", given.friction_rollers)?;
    let f2 = range::not_negative("fluid stress", given.fluid_stress.si(), unit::PA)?;
    let f3 = range::friction("friction bore", given.friction_bore)?;
    let factor = range::within("overall factor", given.overall_factor, (1.0, 10.0), unit::ONE)?;
    let checked = stages
        .iter()
        .enumerate()
        .map(|(index, stage)| {
            check_stage(stage).map_err(|error| PublishedError::InPart {
                number: index + 1,
                error: Box::new(error),
            })
        })
        .collect::<Result<Vec<_>, _>>()?;

    let per_metre = PI * d * f2 + w * f3;
    let mut entered = 0.0;
    let mut result = Vec::with_capacity(stages.len() + 1);
    for head in 0..=checked.len() {
        if head > 0 {
            entered += checked[head - 1].length;
        }
        let rollers = f1 * q * (string - entered).max(0.0);
        let (mut along, mut bending, mut curvature) = (0.0, 0.0, 0.0);
        for stage in &checked[..head] {
            let at_start = rollers + along + bending + curvature;
            along += stage.length * per_metre;
            if let Some((radius, reaction)) = stage.bend {
                bending += f3 * reaction;
                curvature += f3 * stage.length * at_start / radius;
            }
        }
        let total = range::result("total", rollers + along + bending + curvature)?;
        result.push(StageForces {
            rollers: Force::newtons(rollers),
            along: Force::newtons(along),
            bending: Force::newtons(bending),
            curvature: Force::newtons(curvature),
            total: Force::newtons(total),
            design: Force::newtons(range::result("design", factor * total)?),
        });
    }
    Ok(result)
}

/// A stage in SI after its check.
struct Checked {
    length: f64,
    bend: Option<(f64, f64)>,
}

fn check_stage(stage: &Stage) -> Result<Checked, PublishedError> {
    let length = range::not_negative("length", stage.length.si(), unit::M)?;
    let bend = stage
        .bend
        .map(|b| {
            Ok::<_, PublishedError>((
                range::positive("radius", b.radius.si(), unit::M)?,
                range::not_negative("reaction", b.reaction.si(), unit::KN)?,
            ))
        })
        .transpose()?;
    Ok(Checked { length, bend })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn form() -> StageForm {
        StageForm {
            outside_diameter: Length::metres(0.635),
            weight_air: ForcePerLength::from_si(1560.33),
            net_weight: ForcePerLength::from_si(-1855.93),
            string_length: Length::metres(330.0),
            friction_rollers: 0.1,
            fluid_stress: Pressure::pascals(50.0),
            friction_bore: 0.2,
            overall_factor: 1.4,
        }
    }

    #[test]
    fn free_joints_and_straights_leave_rollers_and_wall_friction() {
        let stages = [Stage { length: Length::metres(326.0), bend: None }];
        let forces = stage_form(&form(), &stages).unwrap();
        let start = 0.1 * 1560.33 * 330.0;
        approx::assert_relative_eq!(forces[0].total.si(), start, max_relative = 1e-12);
        let end = 0.1 * 1560.33 * 4.0 + 326.0 * (PI * 0.635 * 50.0 + 0.2 * 1855.93);
        approx::assert_relative_eq!(forces[1].total.si(), end, max_relative = 1e-12);
        approx::assert_relative_eq!(forces[1].design.si(), 1.4 * end, max_relative = 1e-12);
    }

    #[test]
    fn many_short_bends_approach_the_capstan_law() {
        let weightless = StageForm {
            weight_air: ForcePerLength::from_si(1000.0),
            net_weight: ForcePerLength::ZERO,
            fluid_stress: Pressure::ZERO,
            string_length: Length::metres(1e6),
            overall_factor: 1.0,
            ..form()
        };
        let bend = StageBend { radius: Length::metres(0.1), reaction: Force::ZERO };
        // One radian of bend so short that the rollers do not notice it.
        let stages = vec![Stage { length: Length::metres(1e-4), bend: Some(bend) }; 1000];
        let forces = stage_form(&weightless, &stages).unwrap();
        let ratio = forces[1000].total / forces[0].total;
        assert!((ratio - 0.2f64.exp()).abs() < 1e-4, "{ratio}");
    }

    #[test]
    fn inputs_outside_the_range_are_named() {
        let bend = StageBend { radius: Length::ZERO, reaction: Force::ZERO };
        let stages = [Stage { length: Length::metres(10.0), bend: Some(bend) }];
        let error = stage_form(&form(), &stages).unwrap_err();
        assert_eq!(
            error.to_string(),
            "part 1 of the path: radius must be greater than 0 and finite, but was 0 m"
        );
        let small = StageForm { overall_factor: 0.9, ..form() };
        assert_eq!(stage_form(&small, &[]).unwrap_err().quantity(), Some("overall factor"));
    }
}
