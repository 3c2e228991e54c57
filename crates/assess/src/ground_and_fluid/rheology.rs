use fluid::{
    DialReadings, FluidError, Model, Rheology, annulus_loss_any_regime, eccentric_factor, fit,
};
use project::{Fluid, FluidModel};
use quantity::{Density, Flow, Length, Pressure, UnitWeight, Velocity};

use crate::context::Missing;

/// A flow law fitted to the fluid.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Law {
    pub model: Model,
    pub rheology: Rheology,
    /// Whether the checks may use it; the others are shown for comparison.
    pub used: bool,
    pub remark: Option<&'static str>,
}

/// Flow laws of a fluid, and those that its readings do not give.
pub(crate) struct Laws {
    pub list: Vec<Law>,
    /// Why each of the others cannot be had.
    pub refused: Vec<String>,
}

/// Loss per length in an annulus by every law.
#[derive(Debug, Clone)]
pub(crate) struct Losses {
    pub list: Vec<Loss>,
    /// Index of the one that the checks use.
    pub chosen: usize,
}

/// Loss per length by one law.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Loss {
    pub law: Law,
    pub gradient: UnitWeight,
    pub velocity: Velocity,
    pub wall_stress: Pressure,
    pub reynolds: f64,
    pub laminar: bool,
    /// Factor for the string lying off the middle.
    pub eccentric: f64,
}

impl Losses {
    /// The loss that the checks use.
    pub fn chosen(&self) -> Option<&Loss> {
        self.list.get(self.chosen)
    }

    /// Loss per length that the checks use.
    pub fn gradient(&self) -> UnitWeight {
        self.chosen().map_or(UnitWeight::ZERO, |l| l.gradient)
    }
}

/// Flow laws of a fluid.
pub(crate) fn laws(fluid: &Fluid) -> Result<Laws, Missing> {
    let Some(readings) = &fluid.readings else { return bingham_only(fluid) };
    let dials = DialReadings {
        r600: readings.r600,
        r300: readings.r300,
        r100: readings.r100,
        r6: readings.r6,
        r3: readings.r3,
    };
    let mut laws = Laws { list: Vec::new(), refused: Vec::new() };
    for model in Model::ALL {
        match fit(model, &dials) {
            // Without a yield stress it is the power law of the fast readings, whose shear is that of the rods.
            Ok(fit) if model == Model::HerschelBulkley && fit.remark.is_some() => {
                let remark = fit.remark.unwrap_or_default();
                laws.refused.push(format!("no {} law: {remark}", in_words(model)));
            }
            Ok(fit) => laws.list.push(Law {
                model,
                rheology: fit.rheology,
                used: false,
                remark: fit.remark,
            }),
            Err(error) => laws.refused.push(format!("no {} law: {error}", in_words(model))),
        }
    }
    let wanted = match fluid.model {
        FluidModel::Largest => None,
        FluidModel::Bingham => Some(Model::Bingham),
        FluidModel::PowerLaw => Some(Model::PowerLawAnnulus),
        FluidModel::HerschelBulkley => Some(Model::HerschelBulkley),
    };
    // A law that was chosen and cannot be had is replaced by the largest of the others, and said so.
    let wanted = wanted.filter(|w| laws.list.iter().any(|l| l.model == *w));
    for law in &mut laws.list {
        law.used = wanted.map_or(law.model != Model::PowerLawPipe, |w| law.model == w);
    }
    if laws.list.iter().any(|l| l.used) {
        return Ok(laws);
    }
    let mut missing = no_readings();
    if !laws.refused.is_empty() {
        missing.because = laws.refused.join("; ");
    }
    Err(missing)
}

fn bingham_only(fluid: &Fluid) -> Result<Laws, Missing> {
    let (viscosity, point) = fluid.bingham.ok_or_else(no_readings)?;
    let rheology = Rheology::bingham(viscosity, point).map_err(|e| unreadable(&e))?;
    let list = vec![Law { model: Model::Bingham, rheology, used: true, remark: None }];
    Ok(Laws { list, refused: Vec::new() })
}

fn no_readings() -> Missing {
    Missing {
        keys: vec!["/fluid/readings".to_owned()],
        because:
            "neither dial readings of the fluid nor plastic viscosity and yield point are given"
                .to_owned(),
    }
}

fn unreadable(error: &FluidError) -> Missing {
    Missing { keys: vec!["/fluid/readings".to_owned()], because: error.to_string() }
}

/// An annulus and what flows in it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Annulus {
    pub hole: Length,
    pub string: Length,
    pub flow: Flow,
    pub density: Density,
    pub eccentricity: f64,
}

/// Loss by every law in an annulus.
pub(crate) fn losses(laws: &[Law], annulus: &Annulus) -> Result<Losses, Missing> {
    let list = laws.iter().map(|law| loss(law, annulus)).collect::<Result<Vec<_>, _>>();
    let list = list.map_err(|e| Missing { keys: Vec::new(), because: e.to_string() })?;
    let chosen = list
        .iter()
        .enumerate()
        .filter(|(_, l)| l.law.used)
        .max_by(|a, b| a.1.gradient.si().total_cmp(&b.1.gradient.si()))
        .map_or(0, |(i, _)| i);
    Ok(Losses { list, chosen })
}

fn loss(law: &Law, a: &Annulus) -> Result<Loss, FluidError> {
    let (flow, reynolds, laminar) =
        annulus_loss_any_regime(&law.rheology, a.hole, a.string, a.flow, a.density)?;
    let eccentric = if a.eccentricity > 0.0 {
        let ratio = a.string / a.hole;
        // Outside the range of the remembered fit the string counts as concentric, which is safe for the ground.
        eccentric_factor(law.rheology.flow_index(), ratio, a.eccentricity).unwrap_or(1.0)
    } else {
        1.0
    };
    Ok(Loss {
        law: *law,
        gradient: flow.gradient * eccentric,
        velocity: flow.velocity,
        wall_stress: flow.wall_stress,
        reynolds,
        laminar,
        eccentric,
    })
}

/// A flow law in words.
pub(crate) fn in_words(model: Model) -> &'static str {
    match model {
        Model::Bingham => "Bingham",
        Model::PowerLawPipe => "power law of the fast readings",
        Model::PowerLawAnnulus => "power law of the slow readings",
        Model::HerschelBulkley => "Herschel-Bulkley",
    }
}
