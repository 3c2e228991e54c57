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

/// Flow laws of a fluid, those for the checks first.
pub(crate) fn laws(fluid: &Fluid) -> Result<Vec<Law>, Missing> {
    let Some(readings) = &fluid.readings else { return bingham_only(fluid) };
    let dials = DialReadings {
        r600: readings.r600,
        r300: readings.r300,
        r100: readings.r100,
        r6: readings.r6,
        r3: readings.r3,
    };
    let wanted = |model: Model| match fluid.model {
        FluidModel::Largest => model != Model::PowerLawPipe,
        FluidModel::Bingham => model == Model::Bingham,
        FluidModel::PowerLaw => model == Model::PowerLawAnnulus,
        FluidModel::HerschelBulkley => model == Model::HerschelBulkley,
    };
    let mut laws = Vec::new();
    let mut refused = None;
    for model in Model::ALL {
        match fit(model, &dials) {
            Ok(fit) => laws.push(Law {
                model,
                rheology: fit.rheology,
                used: wanted(model),
                remark: fit.remark,
            }),
            Err(error) if wanted(model) && fluid.model != FluidModel::Largest => {
                return Err(unreadable(&error));
            }
            Err(error) => refused = Some(error),
        }
    }
    match (laws.iter().any(|l| l.used), refused) {
        (true, _) => Ok(laws),
        (false, Some(error)) => Err(unreadable(&error)),
        (false, None) => Err(no_readings()),
    }
}

fn bingham_only(fluid: &Fluid) -> Result<Vec<Law>, Missing> {
    let (viscosity, point) = fluid.bingham.ok_or_else(no_readings)?;
    let rheology = Rheology::bingham(viscosity, point).map_err(|e| unreadable(&e))?;
    Ok(vec![Law { model: Model::Bingham, rheology, used: true, remark: None }])
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
        eccentric_factor(law.rheology.flow_index(), ratio, a.eccentricity)?
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
