use fluid::restart_gradient;
use quantity::{Length, Pressure, unit};
use working::{Evidence, Source};

use super::STATICS;
use super::limit_lines::limit_lines;
use super::pressure_lines::{density_lines, place_lines};
use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::ground_and_fluid::{BorePlace, SOCKET_LENGTH, StagePlace, StageRun, Way, utilisation};
use crate::item::{About, Item};

const GEL: Source = Source::new(
    "wall stress of the gel over the gap, break-circulation pressure",
    Evidence::Published,
);

/// The place at which the gel presses hardest against what the ground bears.
struct Worst<'r> {
    run: &'r StageRun,
    way: &'r Way,
    at: &'r BorePlace,
    place: &'r StagePlace,
    gradient: f64,
    along: Length,
    column: Pressure,
    friction: Pressure,
}

impl Worst<'_> {
    fn pressure(&self) -> Pressure {
        self.column + self.friction
    }

    fn utilisation(&self) -> f64 {
        utilisation(self.pressure(), self.place.allowed())
    }
}

/// Pressure per length that breaks the gel on a way, Pa/m; the gap is narrower at the sockets.
fn gradient(gel: Pressure, way: &Way, laying_length: Length) -> Option<f64> {
    let barrel = restart_gradient(gel, way.hole, way.string).ok()?.si();
    let Some((socket, _)) = &way.socket else { return Some(barrel) };
    let at_socket = restart_gradient(gel, way.hole, *socket).ok()?.si();
    let share = (SOCKET_LENGTH / laying_length.si()).min(1.0);
    Some((1.0 - share) * barrel + share * at_socket)
}

/// Pressure that breaks the gel after a stop against what the ground bears, over all stages.
pub(in crate::checks) fn restart(c: &Context<'_>) -> Item {
    let p = c.project;
    let about = About::new(
        "fluid.restart",
        "fluid against the ground when the pump starts after a stop",
        Stage::Pull,
        GEL,
    );
    let Some(gel) = p.fluid.gel_strength else {
        let because = "the gel strength of the fluid is not given";
        return about.not_assessed(&["/fluid/gel_strength"], because);
    };
    let run = c.fluid();
    let places = match &run.places {
        Ok(places) => places,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    if let Some((.., Err(m))) = run.stages.iter().find(|(.., made)| made.is_err()) {
        return about.not_assessed(&[], m.because.clone()).missing(&m.keys);
    }
    let worst = run
        .made()
        .flat_map(|run| run.setup.ways.iter().map(move |way| (run, way)))
        .filter_map(|(run, way)| {
            let gradient = gradient(gel, way, p.string.pipe.laying_length())?;
            let in_stage = run.places.iter().zip(&places.list).filter(|(_, at)| !at.in_end_zone);
            in_stage
                .map(|(place, at)| {
                    let along = if way.from_entry { at.md } else { p.line.length() - at.md };
                    let column = way.path.pressure(at.level, along).column;
                    let friction = Pressure::from_si(gradient * along.si());
                    Worst { run, way, at, place, gradient, along, column, friction }
                })
                .max_by(|a, b| a.utilisation().total_cmp(&b.utilisation()))
        })
        .max_by(|a, b| a.utilisation().total_cmp(&b.utilisation()));
    let Some(worst) = worst else {
        let keys = ["/site/end_zone_entry", "/site/end_zone_exit"];
        return about.not_assessed(&keys, "the two end zones leave no stretch between them");
    };
    let kpa = |q: Pressure| Reading::new(q.si(), unit::KPA);
    let because = format!(
        "worst in the stage {}, at chainage {}: {} of fluid up to the {} and {} to break the gel along {}; flowing, the pressure there is {}",
        worst.run.setup.name,
        worst.at.chainage,
        worst.column,
        worst.way.pit,
        worst.friction,
        worst.along,
        worst.place.pressure.total()
    );
    about
        .at_most(kpa(worst.pressure()), kpa(worst.place.allowed()), p.factors.attention, because)
        .at(worst.at.md)
        .worked(c.working(|w| {
            density_lines(c, &worst.run.setup, w);
            w.given("tau_g", "gel strength", gel.si(), unit::PA);
            w.given("D_h", "diameter of the bore on this way", worst.way.hole.si(), unit::MM);
            w.given("d", "diameter of rods or barrel in it", worst.way.string.si(), unit::MM);
            match &worst.way.socket {
                Some((socket, _)) => {
                    w.given("d_s", "socket with its protection", socket.si(), unit::MM);
                    c.laying_length(w);
                    w.given_from("l_s", "length of a socket", SOCKET_LENGTH, unit::M, Source::new("socket with sleeve and cone", Evidence::Judgement));
                    w.result("J_g", "pressure per length that breaks the gel, barrels and sockets", "4*tau_g*((1 - min(l_s/a, 1))/(D_h - d) + min(l_s/a, 1)/(D_h - d_s))", worst.gradient, unit::PA_PER_M, GEL);
                }
                None => {
                    w.result("J_g", "pressure per length that breaks the gel", "4*tau_g/(D_h - d)", worst.gradient, unit::PA_PER_M, GEL);
                }
            }
            place_lines(c, worst.way, worst.at, w);
            w.result("p_c", "column of fluid", "max(rho*g*(z_out - z), 0)", worst.column.si(), unit::KPA, STATICS);
            w.result("p_j", "to break the gel", "J_g*s", worst.friction.si(), unit::KPA, GEL);
            w.derive("p", "pressure of the fluid", "p_c + p_j", unit::KPA, STATICS);
            limit_lines(c, &worst.run.setup, places, worst.at, worst.place, w);
        }))
        .note("Turn the string while the pump starts slowly: moving fluid breaks its gel at a fraction of this pressure.")
}
