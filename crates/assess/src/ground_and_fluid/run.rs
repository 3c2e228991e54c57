use fluid::{Criterion, LimitRules, Limits, PathPressure, limits_at};
use ground::SoilGroup;
use project::Project;
use quantity::{Length, Pressure};

use super::governing_criteria;
use super::places::{BorePlace, Places};
use super::rheology::{Laws, laws};
use super::soil_shares::SoilShares;
use super::stages::{StageSetup, stages};
use crate::assessment::Stage;
use crate::context::Missing;

/// Fluid and ground along the whole bore, in every stage.
pub(crate) struct FluidRun<'a> {
    pub places: Result<Places<'a>, Missing>,
    pub shares: Option<SoilShares>,
    /// Every stage without the ground's limits, for what needs the fluid only.
    pub setups: Vec<Result<StageSetup, Missing>>,
    /// Flow laws that the readings do not give, with the reason.
    pub refused_laws: Vec<String>,
    pub stages: Vec<(String, String, Stage, Result<StageRun, Missing>)>,
}

/// One stage with the pressure and the limit at every place.
pub(crate) struct StageRun {
    pub setup: StageSetup,
    /// One for each place of the bore; `None` in its inside means that the ground's limits are not known.
    pub places: Vec<StagePlace>,
    /// Index of the place with the least margin outside the end zones.
    pub worst: Option<usize>,
    /// The same inside the end zones.
    pub worst_in_zone: Option<usize>,
}

/// Pressure and limit at a place in one stage.
#[derive(Clone, Copy)]
pub(crate) struct StagePlace {
    /// Index of the way with the higher pressure.
    pub way: usize,
    pub pressure: PathPressure,
    pub limits: Limits,
    /// Why the ground bears nothing here, where it does not.
    pub nothing: Option<&'static str>,
    /// What the ground is taken to bear, and by which criterion.
    pub limit: Pressure,
    pub criterion: Criterion,
    /// Safety asked for.
    pub safety: f64,
    /// Weight above times its factor: more may not act.
    pub cap: Pressure,
}

impl StagePlace {
    /// What may act: the limit over its safety, and not more than the weight above times a factor.
    pub fn allowed(&self) -> Pressure {
        (self.limit / self.safety).min(self.cap)
    }

    /// Pressure over what may act.
    pub fn utilisation(&self) -> f64 {
        utilisation(self.pressure.total(), self.allowed())
    }
}

/// Pressure over what may act; without pressure nothing is used, also where nothing may act.
pub(crate) fn utilisation(pressure: Pressure, allowed: Pressure) -> f64 {
    let (p, allowed) = (pressure.si(), allowed.si());
    if p <= 0.0 {
        0.0
    } else if allowed > 0.0 {
        p / allowed
    } else {
        f64::MAX
    }
}

impl<'a> FluidRun<'a> {
    pub fn of(project: &'a Project) -> Self {
        let places = Places::along(project);
        let shares = places.as_ref().ok().and_then(Places::shares);
        let read = laws(&project.fluid);
        let (laws, refused_laws) = match read {
            Ok(Laws { list, refused }) => (Ok(list), refused),
            Err(missing) => (Err(missing), Vec::new()),
        };
        let ground = places.as_ref().map(|_| ()).map_err(Clone::clone);
        let all = stages(project, laws.as_deref(), shares.as_ref(), &ground);
        let setups = all.iter().map(|(.., setup)| setup.clone()).collect();
        let stages = all
            .into_iter()
            .map(|(id, name, stage, setup)| {
                let run = setup.and_then(|setup| match &places {
                    Ok(places) => stage_run(project, places, setup),
                    Err(missing) => Err(missing.clone()),
                });
                (id, name, stage, run)
            })
            .collect();
        Self { places, shares, setups, refused_laws, stages }
    }

    /// The stages that could be computed.
    pub fn made(&self) -> impl Iterator<Item = &StageRun> {
        self.stages.iter().filter_map(|(.., run)| run.as_ref().ok())
    }
}

/// Safety that the crossing asks for in a group of soils.
pub(crate) fn safety(project: &Project, group: SoilGroup) -> f64 {
    let f = &project.factors.ground;
    match group {
        SoilGroup::Granular | SoilGroup::Rock => f.safety_granular,
        SoilGroup::Fine => f.safety_fine,
    }
}

/// How far plastic zones may grow, as the crossing says.
pub(crate) fn limit_rules(project: &Project) -> LimitRules {
    let f = &project.factors.ground;
    LimitRules {
        wall_strain: f.wall_strain,
        plastic_zone_granular: f.plastic_zone_granular,
        plastic_zone_fine: f.plastic_zone_fine,
    }
}

fn stage_run(
    project: &Project,
    places: &Places<'_>,
    setup: StageSetup,
) -> Result<StageRun, Missing> {
    let rules = limit_rules(project);
    let radius = setup.hole / 2.0;
    let criteria = governing_criteria(project);
    let length = project.line.length();
    let mut list = Vec::with_capacity(places.list.len());
    for place in &places.list {
        let Some(for_limits) = place.for_limits(places.model.soils()) else { continue };
        let limits = limits_at(&for_limits, radius, &rules).map_err(|e| Missing {
            keys: Vec::new(),
            because: format!("{}: {e}", for_limits.soil.name),
        })?;
        let (way, pressure) = worst_way(&setup, place, length);
        let whole = [Criterion::Overburden];
        let of = if limits.uplift { &whole[..] } else { criteria };
        let own = safety(project, for_limits.soil.kind.group());
        let behind = for_limits.weaker[limits.layer.min(1)]
            .map_or(own, |w| own.max(safety(project, w.soil.kind.group())));
        let with_safety = |criterion: Criterion| match criterion {
            Criterion::CavityByLayer | Criterion::UndrainedByLayer => behind,
            _ => own,
        };
        let least = of
            .iter()
            .filter_map(|c| Some((limits.get(*c)?, *c, with_safety(*c))))
            .min_by(|a, b| (a.0.si() / a.2).total_cmp(&(b.0.si() / b.2)));
        let Some((limit, criterion, safety)) = least else {
            let because = format!("no criterion says what {} bears", for_limits.soil.name);
            return Err(Missing { keys: Vec::new(), because });
        };
        let nothing = if limits.open {
            Some("it is open and contains no pressure")
        } else if for_limits.cover < radius {
            Some("the bore lies open to the surface")
        } else {
            None
        };
        let limit = if nothing.is_some() { Pressure::ZERO } else { limit };
        let cap = place.stress.total_vertical * project.factors.ground.overburden;
        list.push(StagePlace { way, pressure, limits, nothing, limit, criterion, safety, cap });
    }
    let worst = |zone: bool| {
        list.iter()
            .zip(&places.list)
            .enumerate()
            .filter(|(_, (_, at))| at.in_end_zone == zone)
            .max_by(|a, b| a.1.0.utilisation().total_cmp(&b.1.0.utilisation()))
            .map(|(i, _)| i)
    };
    let (outside, inside) = (worst(false), worst(true));
    Ok(StageRun { setup, places: list, worst: outside, worst_in_zone: inside })
}

/// The way with the higher pressure at a place.
fn worst_way(setup: &StageSetup, place: &BorePlace, length: Length) -> (usize, PathPressure) {
    let zero = PathPressure { column: Pressure::ZERO, friction: Pressure::ZERO };
    setup.ways.iter().enumerate().fold((0, zero), |best, (i, way)| {
        let along = if way.from_entry { place.md } else { length - place.md };
        let pressure = way.path.pressure(place.level, along);
        if i == 0 || pressure.total() > best.1.total() { (i, pressure) } else { best }
    })
}
