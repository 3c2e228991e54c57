use std::f64::consts::FRAC_PI_4;

use fluid::{DialReadings, Model, PipeFlow, Rheology, fit, nozzle_loss, pipe_loss};
use quantity::{Area, Density, GRAVITY, Length, Pressure, unit};
use working::{Evidence, Source};

use crate::assessment::{Reading, Stage};
use crate::context::{Context, Missing};
use crate::ground_and_fluid::StageSetup;
use crate::item::{About, Item};
use crate::quoted::{from_line, gravity};

/// Discharge coefficient of nozzles.
pub(crate) const NOZZLE: f64 = 0.95;
pub(crate) const NOZZLE_SOURCE: Source = Source::new(
    "Guo and Liu p. 53 recommends 0.95; 0.98 to 1.03 were measured",
    Evidence::Published,
);
const PIPE_FLOW: Source = Source::new("API RP 13D power law in pipe", Evidence::Published);
const SUM: Source = Source::new("sum of the losses", Evidence::Derived);
/// One degree of a dial is this stress, Pa, and one turn per minute this shear rate, 1/s; standard bob.
const DIAL: f64 = 0.511;
const SHEAR: f64 = 1.703;

/// What the pump must do in one stage.
struct Demand<'r> {
    setup: &'r StageSetup,
    inside: Length,
    length: Length,
    rods: PipeFlow,
    in_rods: Pressure,
    nozzles: (u32, Length),
    at_nozzles: Pressure,
    motor: Pressure,
    annulus: Pressure,
    heavier: Pressure,
    /// Column of fresh fluid up to an outlet that lies higher than the rig.
    lift: Pressure,
}

impl Demand<'_> {
    fn total(&self) -> Pressure {
        self.in_rods + self.at_nozzles + self.motor + self.annulus + self.heavier + self.lift
    }
}

/// Pressure and flow of the pump.
pub(in crate::checks) fn pump(c: &Context<'_>) -> Item {
    let p = c.project;
    let about = About::new("fluid.pump", "pressure and flow of the rig's pump", Stage::Pilot, SUM);
    let demands = match demands(c) {
        Ok(demands) => demands,
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
    };
    let Some(worst) = demands.iter().max_by(|a, b| a.total().si().total_cmp(&b.total().si()))
    else {
        return about.not_assessed(&[], "no stage of drilling is known");
    };
    let pump = &p.rig.pump;
    let mut missing = Vec::new();
    if pump.pressure.is_none() {
        missing.push("/rig/pump/pressure");
    }
    if pump.capacity.is_none() {
        missing.push("/rig/pump/capacity");
    }
    let (Some(rated), Some(capacity)) = (pump.pressure, pump.capacity) else {
        let bar = Reading::new(worst.total().si(), unit::BAR);
        return about
            .not_assessed(&missing, "pressure and capacity of the pump are not both given")
            .acting(bar);
    };
    let delivered = capacity * pump.efficiency;
    let flows = c.fluid().setups.iter().flatten();
    let greatest = flows.max_by(|a, b| a.flow.si().total_cmp(&b.flow.si()));
    let Some(greatest) = greatest else {
        return about.not_assessed(&[], "no stage of drilling is known");
    };
    let because = format!(
        "{} in the {}: {} in {} of rods, {} at {} nozzles of {}, {} in the motor, {} for annulus and heavier returns; the {} asks for {} of the {} that the pump delivers",
        worst.total(),
        worst.setup.name,
        worst.in_rods,
        worst.length,
        worst.at_nozzles,
        worst.nozzles.0,
        quantity::show_briefly(worst.nozzles.1.si(), unit::MM),
        worst.motor,
        worst.annulus + worst.heavier + worst.lift,
        greatest.name,
        quantity::show_briefly(greatest.flow.si(), unit::L_PER_MIN),
        quantity::show_briefly(delivered.si(), unit::L_PER_MIN),
    );
    let by_flow = greatest.flow / delivered > worst.total() / rated;
    let (demand, limit) = if by_flow {
        (
            Reading::new(greatest.flow.si(), unit::L_PER_MIN),
            Reading::new(delivered.si(), unit::L_PER_MIN),
        )
    } else {
        (Reading::new(worst.total().si(), unit::BAR), Reading::new(rated.si(), unit::BAR))
    };
    about
        // A pump that runs at what it delivers is used as it is meant to be.
        .rule_when(by_flow)
        .at_most(demand, limit, p.factors.attention, because)
        .worked(c.working(|w| {
            w.given("L", "length of the bore", worst.length.si(), unit::M);
            w.given("d_i", "inside diameter of the rods", worst.inside.si(), unit::MM);
            w.given_from("Q", "flow of this stage", worst.setup.flow.si(), unit::L_PER_MIN, p.source_of(worst.setup.flow_key));
            w.given_from("rho_f", "density of the fresh fluid", p.fluid.fresh_density.si(), unit::KG_PER_M3, p.source_of("/fluid/fresh_density"));
            w.result("v", "velocity in the rods", "Q/(pi/4*d_i^2)", worst.rods.velocity.si(), unit::M_PER_S, PIPE_FLOW);
            w.found("Re", "Reynolds number in the rods", "power law of the fast readings", worst.rods.reynolds, unit::ONE, PIPE_FLOW);
            w.found("f", "Fanning's friction factor", "16/Re laminar, a/Re^b turbulent, the greater between", worst.rods.friction_factor, unit::ONE, PIPE_FLOW);
            w.result("p_r", "loss in the rods", "2*f*rho_f*v^2/d_i*L", worst.in_rods.si(), unit::BAR, PIPE_FLOW);
            w.given("n_n", "number of nozzles", f64::from(worst.nozzles.0), unit::ONE);
            w.given("d_n", "diameter of a nozzle", worst.nozzles.1.si(), unit::MM);
            w.given_from("C_d", "discharge coefficient", NOZZLE, unit::ONE, NOZZLE_SOURCE);
            w.result("p_n", "loss at the nozzles", "rho_f*Q^2/(2*C_d^2*(n_n*pi/4*d_n^2)^2)", worst.at_nozzles.si(), unit::BAR, NOZZLE_SOURCE);
            w.given_from("p_m", "loss in the motor", worst.motor.si(), unit::BAR, p.source_of("/bore/pilot/motor_loss"));
            w.found("p_a", "friction in the annulus, the longest way", "loss per length times the length of the bore", worst.annulus.si(), unit::BAR, SUM);
            gravity(w);
            from_line(w, "h", "depth of the lowest place below the entry pit", depth(c).si(), unit::M);
            w.given_from("rho", "density of the returns", worst.setup.density.si(), unit::KG_PER_M3, Source::new("mass balance", Evidence::Derived));
            w.result("p_h", "returns heavier than the fresh fluid", "max(rho - rho_f, 0)*g*h", worst.heavier.si(), unit::BAR, SUM);
            from_line(w, "h_o", "height of the exit pit above the entry pit, where fluid must go there", rise(c, worst.setup).si(), unit::M);
            w.result("p_o", "column up to the higher outlet", "rho_f*g*h_o", worst.lift.si(), unit::BAR, SUM);
            w.result("p", "pressure at the pump", "p_r + p_n + p_m + p_a + p_h + p_o", worst.total().si(), unit::BAR, SUM);
            w.given("p_max", "pressure that the pump may make", rated.si(), unit::BAR);
            w.given("Q_max", "greatest flow of a stage", greatest.flow.si(), unit::L_PER_MIN);
            w.given("Q_c", "capacity of the pump", capacity.si(), unit::L_PER_MIN);
            w.given_from("e", "share of it that is delivered", pump.efficiency, unit::ONE, p.source_of("/rig/pump/efficiency"));
            w.derive("U", "utilisation", "max(p/p_max, Q_max/(e*Q_c))", unit::ONE, SUM);
        }))
        .note("The pump's pressure is not that of the annulus: most of it is lost in rods and nozzles. Losses in hoses, swivel and tool joints are left out; the pull-in is left out, its nozzles are the reamer's.")
}

fn depth(c: &Context<'_>) -> Length {
    let line = &c.project.line;
    (line.sample(0.0).level - line.lowest().level).max(Length::ZERO)
}

/// By how much the exit pit lies above the entry pit, where fluid of this stage goes there.
fn rise(c: &Context<'_>, setup: &StageSetup) -> Length {
    let line = &c.project.line;
    if setup.ways.iter().all(|way| way.from_entry) {
        return Length::ZERO;
    }
    (line.sample(line.length().si()).level - line.sample(0.0).level).max(Length::ZERO)
}

/// Demands of the stages whose nozzles are known.
fn demands<'c>(c: &'c Context<'_>) -> Result<Vec<Demand<'c>>, Missing> {
    let p = c.project;
    let missing = |keys: &[&str], because: &str| Missing {
        keys: keys.iter().map(|k| (*k).to_owned()).collect(),
        because: because.to_owned(),
    };
    if let Some(Err(m)) = c.fluid().setups.iter().find(|made| made.is_err()) {
        return Err(m.clone());
    }
    let inside = p.bore.rods.inside_diameter.ok_or_else(|| {
        missing(&["/bore/rods/inside_diameter"], "the inside diameter of the rods is not given")
    })?;
    let law = fast_law(c)?;
    let mut list = Vec::new();
    let drillings = [("/bore/pilot/nozzles", &p.bore.pilot)]
        .into_iter()
        .chain(p.bore.reaming.iter().map(|d| ("/bore/reaming/nozzles", d)));
    for ((key, drilling), setup) in drillings.zip(c.fluid().setups.iter().flatten()) {
        let nozzles = drilling
            .nozzles
            .ok_or_else(|| missing(&[key], "the nozzles of a stage are not given"))?;
        let demand = demand(c, setup, inside, &law, nozzles, drilling.motor_loss);
        list.push(demand.map_err(|e| Missing { keys: Vec::new(), because: e.to_string() })?);
    }
    Ok(list)
}

fn demand<'r>(
    c: &Context<'_>,
    setup: &'r StageSetup,
    inside: Length,
    law: &Rheology,
    nozzles: (u32, Length),
    motor: Pressure,
) -> Result<Demand<'r>, fluid::FluidError> {
    let p = c.project;
    let (flow, fresh) = (setup.flow, p.fluid.fresh_density);
    let length = p.line.length();
    let rods = pipe_loss(law, inside, flow, fresh)?;
    let area = f64::from(nozzles.0) * FRAC_PI_4 * nozzles.1.si().powi(2);
    let at_nozzles = nozzle_loss(fresh, flow, Area::from_si(area), NOZZLE)?;
    let gradient = setup.ways.iter().map(|w| w.path.gradient.si()).fold(0.0, f64::max);
    let heavier = (setup.density - fresh).max(Density::ZERO).si() * GRAVITY * depth(c).si();
    Ok(Demand {
        setup,
        inside,
        length,
        rods,
        in_rods: Pressure::from_si(rods.gradient.si() * length.si()),
        nozzles,
        at_nozzles,
        motor,
        annulus: Pressure::from_si(gradient * length.si()),
        heavier: Pressure::from_si(heavier),
        lift: Pressure::from_si(fresh.si() * GRAVITY * rise(c, setup).si()),
    })
}

/// The power law of the fast readings; from the Bingham values where no readings are given.
fn fast_law(c: &Context<'_>) -> Result<Rheology, Missing> {
    let fluid = &c.project.fluid;
    let (r600, r300) = match (&fluid.readings, fluid.bingham) {
        (Some(r), _) => (r.r600, r.r300),
        (None, Some((viscosity, point))) => {
            let dial = |rpm: f64| (point.si() + viscosity.si() * SHEAR * rpm) / DIAL;
            (dial(600.0), dial(300.0))
        }
        (None, None) => (f64::NAN, f64::NAN),
    };
    let dials = DialReadings { r600, r300, r100: None, r6: None, r3: None };
    fit(Model::PowerLawPipe, &dials)
        .map(|f| f.rheology)
        .map_err(|e| Missing { keys: vec!["/fluid/readings".to_owned()], because: e.to_string() })
}
