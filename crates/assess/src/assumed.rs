//! Values that nobody gave and that no key of the crossing file holds: the reader gets them in the same list.

use project::Project;
use quantity::{Unit, show, unit};
use working::{Assumption, Evidence, Source};

use crate::checks::{NEAR_END, NOZZLE, NOZZLE_SOURCE, ON_LINE, SHORT};
use crate::context::ROD_STEEL;
use crate::ground_and_fluid::{SOCKET_LENGTH, main_kind, usual_dose, usual_ratio};

/// Every assumption of an assessment: those of the file, then those of the calculation.
pub(crate) fn all(project: &Project) -> Vec<Assumption> {
    let mut list = project.assumptions.clone();
    let data = project.string.pipe.data();
    let mut add = |path: &str, meaning: &str, si: f64, unit: Unit, source: Source| {
        if source.evidence != Evidence::Given {
            list.push(Assumption {
                path: path.to_owned(),
                meaning: meaning.to_owned(),
                value: show(si, unit),
                source,
            });
        }
    };
    let modulus = &data.modulus;
    add(
        "pipe: modulus",
        "modulus of elasticity of the iron",
        modulus.value.si(),
        unit::GPA,
        modulus.source.clone(),
    );
    let strength = &data.proof_strength;
    add(
        "pipe: proof strength",
        "0.2 % proof strength of the iron",
        strength.value.si(),
        unit::MPA,
        strength.source.clone(),
    );
    if data.stated_mass.is_none() {
        let iron = &data.iron_density;
        add(
            "pipe: iron",
            "density of the iron",
            iron.value.si(),
            unit::KG_PER_M3,
            iron.source.clone(),
        );
        let lining = &data.lining;
        if lining.value.thickness.si() > 0.0 {
            add(
                "pipe: lining",
                "density of the lining",
                lining.value.density.si(),
                unit::KG_PER_M3,
                Source::new("cement mortar, 2200 to 2400 kg/m3", Evidence::FromMemory),
            );
        }
    }
    add(
        "pipe: Poisson's ratio",
        "Poisson's ratio of the iron, for buckling",
        service::POISSON,
        unit::ONE,
        Source::new("0.25 in EN handbooks, 0.28 in AWWA guides", Evidence::FromMemory),
    );
    if project.bore.rods.mass_per_length.is_some() {
        add(
            "rods: steel",
            "density of the rods' steel, which the fluid buoys up",
            ROD_STEEL.si(),
            unit::KG_PER_M3,
            Source::new("steel", Evidence::CommonPractice),
        );
    }
    add(
        "rods: friction",
        "friction and fluid stress of the rods in the bore",
        project.factors.friction_bore,
        unit::ONE,
        Source::new("the same as those of the string", Evidence::Judgement),
    );
    fluid_assumptions(project, &mut add);
    ground_assumptions(project, &mut add);
    add(
        "water",
        "density of the water in pipe and ground",
        pipe::WATER_DENSITY.si(),
        unit::KG_PER_M3,
        Source::new("fresh water, rounded", Evidence::CommonPractice),
    );
    list
}

/// Takes path, meaning, value in SI, unit and source of an assumption.
type Add<'a> = dyn FnMut(&str, &str, f64, Unit, Source) + 'a;

/// Figures of the checks of ground and fluid that no key holds.
fn ground_assumptions(project: &Project, add: &mut Add<'_>) {
    if project.strata.is_none() {
        return;
    }
    let judged = |what: &'static str| Source::new(what, Evidence::Judgement);
    let mut m = |path: &str, meaning: &str, value: f64, why: &'static str| {
        add(path, meaning, value, unit::M, judged(why));
    };
    m(
        "ground: short stretch",
        "length of bore below which a soil that can be drilled does not decide its suitability",
        SHORT,
        "passed through",
    );
    m(
        "ground: near an end",
        "distance within which an end of the bore has a boring near it",
        NEAR_END,
        "sources say near each end without a figure",
    );
    m(
        "ground: on the line",
        "distance within which a boring stands on the line",
        ON_LINE,
        "position of a boring and of the bore",
    );
    add("pump: nozzles", "discharge coefficient of nozzles", NOZZLE, unit::ONE, NOZZLE_SOURCE);
}

/// What follows from the soil of the bore, and what no key holds.
fn fluid_assumptions(project: &Project, add: &mut Add<'_>) {
    let Some(kind) = main_kind(project) else { return };
    let bore = &project.bore;
    let (ratio, source) = usual_ratio(kind);
    let meaning = "volume of fluid per volume of ground cut";
    if bore.pilot.fluid_ratio.is_none() && bore.pilot_diameter.is_some() {
        add("/bore/pilot/fluid_ratio", meaning, ratio, unit::ONE, source.clone());
    }
    if bore.reaming.iter().any(|d| d.fluid_ratio.is_none()) {
        add("/bore/reaming/fluid_ratio", meaning, ratio, unit::ONE, source);
    }
    if project.fluid.bentonite_dose.is_none() {
        let (dose, source) = usual_dose(kind);
        let meaning = "bentonite per volume of fluid";
        add("/fluid/bentonite_dose", meaning, dose.si(), unit::KG_PER_M3, source);
    }
    add(
        "string: socket length",
        "length of a socket with its protection, where the annulus is narrower",
        SOCKET_LENGTH,
        unit::M,
        Source::new("sleeve and cone on a socket of 0.2 to 0.35 m", Evidence::Judgement),
    );
}
