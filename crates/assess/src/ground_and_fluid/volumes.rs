use std::f64::consts::FRAC_PI_4;

use fluid::{cut_volume, fluid_volume, largest_advance, returns_density};
use project::Project;
use quantity::{Density, Length, Volume, unit};

use super::FluidRun;
use super::soil_shares::{usual_dose, usual_ratio};
use crate::assessment::{Pass, Reading};

/// The pull-in: nothing is cut, the string pushes fluid out, and what is pumped comes on top.
fn pull_in(project: &Project, bore: Length, dose: Density) -> Option<Pass> {
    let length = project.line.length();
    let barrel = project.string.pipe.barrel_diameter().si();
    let displaced = FRAC_PI_4 * barrel.powi(2) * length.si();
    let pumped = project
        .bore
        .pulling
        .flow
        .map(|q| q.si() * length.si() / project.bore.pulling_speed.si())?;
    let fluid = &project.fluid;
    let out = Volume::from_si(displaced + pumped);
    Some(Pass {
        name: "pull-in".to_owned(),
        diameter: Reading::new(bore.si(), unit::MM),
        fluid_ratio: None,
        cut: Reading::new(0.0, unit::M3),
        fluid: Reading::new(pumped, unit::M3),
        returns: Reading::new(out.si(), unit::M3),
        returns_density: Reading::new(fluid.density.si(), unit::KG_PER_M3),
        largest_advance: None,
        bentonite: Reading::new(pumped * dose.si(), unit::KG),
        tankers: (out / fluid.tanker_volume).ceil(),
    })
}

/// Volumes and rates of every pass; empty where the ground or the pilot bore is not known.
pub(crate) fn passes(project: &Project, run: &FluidRun<'_>) -> Vec<Pass> {
    let Some(shares) = &run.shares else { return Vec::new() };
    let bore = &project.bore;
    let Some(pilot) = bore.pilot_diameter else { return Vec::new() };
    let length = project.line.length();
    let delivered = project.rig.pump.capacity.map(|c| c * project.rig.pump.efficiency);
    let dose = project.fluid.bentonite_dose.unwrap_or_else(|| usual_dose(shares.main).0);
    let mut before = Length::ZERO;
    let mut list = Vec::new();
    let drillings = [&bore.pilot].into_iter().chain(&bore.reaming);
    let diameters = [pilot].into_iter().chain(bore.ream_diameters.iter().copied());
    for (i, (drilling, diameter)) in drillings.zip(diameters).enumerate() {
        let ratio = drilling.fluid_ratio.unwrap_or_else(|| usual_ratio(shares.main).0);
        let pass = || -> Result<Pass, fluid::FluidError> {
            let cut = cut_volume(length, before, diameter)?;
            let fresh = fluid_volume(cut, ratio)?;
            let out = Volume::from_si(cut.si() + fresh.si());
            let density = returns_density(shares.density, project.fluid.fresh_density, ratio)?;
            // The pump may deliver less than is asked of it.
            let flow = match (drilling.flow, delivered) {
                (Some(flow), Some(most)) => Some(flow.min(most)),
                (flow, _) => flow,
            };
            let advance = match flow {
                Some(flow) => Some(largest_advance(flow, 1.0, ratio, before, diameter)?),
                None => None,
            };
            let name = if i == 0 { "pilot".to_owned() } else { format!("ream {i}") };
            Ok(Pass {
                name,
                diameter: Reading::new(diameter.si(), unit::MM),
                fluid_ratio: Some(ratio),
                cut: Reading::new(cut.si(), unit::M3),
                fluid: Reading::new(fresh.si(), unit::M3),
                returns: Reading::new(out.si(), unit::M3),
                returns_density: Reading::new(density.si(), unit::KG_PER_M3),
                largest_advance: advance.map(|v| Reading::new(v.si(), unit::M_PER_MIN)),
                bentonite: Reading::new(fresh.si() * dose.si(), unit::KG),
                tankers: (out / project.fluid.tanker_volume).ceil(),
            })
        };
        list.extend(pass());
        before = diameter;
    }
    list.extend(pull_in(project, before, dose));
    list
}
