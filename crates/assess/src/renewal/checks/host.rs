//! The old main: material, asbestos cement, what is built into it, services.

use project::{Feature, Material, Renewal, Yields};
use quantity::unit;
use working::{Evidence, Source};

use super::COUNT;
use crate::assessment::{Reading, Stage};
use crate::item::{About, Item};
use crate::renewal::context::Context;

const MATRIX: Source = Source::new(
    "industry pages, one manufacturer's manual and contractors' pages on which hosts a static head opens",
    Evidence::Published,
);
const CLASSES: Source = Source::new(
    "1 breaks, 2 is split by blades, 3 needs a test section, 4 cannot be burst",
    Evidence::Judgement,
);

fn one(value: f64) -> Reading {
    Reading::new(value, unit::ONE)
}

fn class(material: Material) -> f64 {
    match material.yields() {
        Yields::Breaks => 1.0,
        Yields::Split => 2.0,
        Yields::Doubtful => 3.0,
        Yields::Not => 4.0,
    }
}

/// What to watch with a material.
fn caution(material: Material) -> &'static str {
    match material {
        Material::GreyIron => {
            "spun iron can be as tough as ductile iron: take a sample; look for lead joints and clamps"
        }
        Material::DuctileIron => {
            "is split by blades with high force; edges are sharp: the new main needs a mortar coating"
        }
        Material::Steel => {
            "is split by blades; weld beads and clamps; one contractor's page rules it out"
        }
        Material::AsbestosCement => "breaks easily; needs the authority's decision",
        Material::Clay | Material::Concrete => "look for encasement",
        Material::ReinforcedConcrete => {
            "only where lightly reinforced or badly deteriorated: try a section first"
        }
        Material::PrestressedConcrete => "its wires do not let a head through",
        Material::Pvc | Material::Pe => "is split by blades; PE may fold",
        Material::Grp => "one contractor's page rules it out",
    }
}

/// Whether the host gives way to a static head.
pub(super) fn material(c: &Context<'_>) -> Item {
    let about = About::new(
        "host.material",
        "does the old main give way to a static head",
        Stage::Design,
        MATRIX,
    )
    .rule();
    let in_runs = c.renewal.runs.iter().flat_map(|run| c.stretches_of(run));
    let worst = in_runs.max_by(|a, b| class(a.material).total_cmp(&class(b.material)));
    let Some(worst) = worst else {
        return about.not_assessed(&["/host/stretch"], "no stretch of the old main lies in a run");
    };
    let word = worst.material.word();
    let because =
        format!("{word} from {} to {}: {}", worst.from, worst.to, caution(worst.material));
    let k = class(worst.material);
    about
        .at_most(one(k), one(3.0), c.renewal.factors.attention, because)
        .at(worst.from)
        .attend(k > 2.0)
        .worked(c.working(|w| {
            w.given("x", "chainage at which the hardest material begins", worst.from.si(), unit::M);
            w.given_from("k", "class of that material", k, unit::ONE, MATRIX);
            w.given_from("k_max", "highest class that is not refused", 3.0, unit::ONE, CLASSES);
            w.derive("U", "utilisation", "k/k_max", unit::ONE, CLASSES);
        }))
        .note("Records of old mains are seldom exact: take samples, run a camera, and look for repairs before the method is fixed.")
}

/// Whether any run passes through asbestos cement.
pub(super) fn has_asbestos(renewal: &Renewal) -> bool {
    renewal.runs.iter().any(|run| {
        let (from, to) = run.stretch();
        renewal
            .host
            .stretches
            .iter()
            .any(|s| s.material == Material::AsbestosCement && s.from < to && s.to > from)
    })
}

/// The authority's decision on asbestos cement.
pub(super) fn asbestos(c: &Context<'_>) -> Item {
    let about = About::new(
        "host.asbestos",
        "asbestos cement: the authority's decision",
        Stage::Design,
        Source::new(
            "rules differ: regulated asbestos material and a disposal site in the USA (state agency's bulletin), burst under rules of work elsewhere (association's page)",
            Evidence::Published,
        ),
    )
    .rule();
    let a = &c.renewal.host.asbestos;
    let fields = [
        ("/host/asbestos/authority", a.authority.is_some()),
        ("/host/asbestos/notice", a.notice.is_some()),
        ("/host/asbestos/decision", a.decision.is_some()),
        ("/host/asbestos/disposal", a.disposal.is_some()),
        ("/host/asbestos/air_monitoring", a.air_monitoring.is_some()),
    ];
    let open: Vec<&str> =
        fields.iter().filter(|(_, filled)| !filled).map(|(key, _)| *key).collect();
    if !open.is_empty() {
        return about.not_assessed(
            &open,
            "needs the authority's decision: the run is not ready until all of it is recorded",
        );
    }
    let decision = a.decision.unwrap_or_default();
    let against = if decision == "burst" { 0.0 } else { 1.0 };
    let authority = a.authority.as_deref().unwrap_or_default();
    let notice = a.notice.as_deref().unwrap_or_default();
    let because = match decision {
        "burst" => format!("{authority} allows bursting ({notice})"),
        other => {
            format!("{authority} decided \"{other}\" ({notice}): it may not be burst in place")
        }
    };
    about
        .at_most(one(against), one(0.0), c.renewal.factors.attention, because)
        .worked(c.working(|w| {
            w.given("n", "fields of the decision that are filled in", 5.0, unit::ONE);
            w.given("k", "1 where it decided against bursting", against, unit::ONE);
            w.derive("U", "none is allowed", "k", unit::ONE, CLASSES);
        }))
        .note("Where fragments may not stay in the ground, the old main can be pushed out and removed instead of being burst.")
}

/// Actions that let a head through a feature.
fn passes(kind: &str, action: &str) -> bool {
    match action {
        "dig out" | "reroute" => true,
        "cutter" => matches!(kind, "repair clamp" | "coupling" | "liner"),
        "pass" => matches!(kind, "coupling" | "sag"),
        _ => false,
    }
}

/// Whether something is decided about all that the head meets.
pub(super) fn features(c: &Context<'_>) -> Item {
    let about = About::new(
        "host.features",
        "clamps, fittings and obstacles in the old main without a fitting action",
        Stage::Design,
        Source::new(
            "what stops a head is taken out before it comes, trade articles and manuals",
            Evidence::Published,
        ),
    )
    .rule();
    let all: Vec<_> = {
        let features = c.renewal.host.features.iter().enumerate();
        features
            .filter(|(_, f)| c.in_a_run(f.at) || f.to.is_some_and(|to| c.in_a_run(to)))
            .collect()
    };
    let open: Vec<_> =
        all.iter().filter(|(_, f)| !f.action.is_some_and(|a| passes(f.kind, a))).collect();
    #[expect(clippy::cast_precision_loss, reason = "a count of features")]
    let (count, whole) = (open.len() as f64, all.len() as f64);
    let named: Vec<_> = open
        .iter()
        .map(|(_, f)| {
            let action =
                f.action.map_or("nothing decided".to_owned(), |a| format!("\"{a}\" does not do"));
            format!("{} ({action})", placed(f))
        })
        .collect();
    let decided = |f: &Feature| format!("{}: {}", placed(f), f.action.unwrap_or_default());
    let because = if all.is_empty() {
        "none in the runs is known".to_owned()
    } else if named.is_empty() {
        let list: Vec<_> = all.iter().map(|(_, f)| decided(f)).collect();
        format!(
            "{whole} in the runs, each with an action that lets the head through: {}",
            list.join(", ")
        )
    } else {
        format!("{} of {whole} in the runs are open: {}", count, named.join(", "))
    };
    let item = about.at_most(one(count), one(0.0), c.renewal.factors.attention, because);
    let item = match open.first() {
        Some((_, f)) => item.at(f.at),
        None => item,
    };
    item.worked(c.working(|w| {
        w.found("n", "features in the runs", "count", whole, unit::ONE, COUNT);
        w.found("k", "without a fitting action", "count", count, unit::ONE, COUNT);
        w.derive("U", "none is allowed", "k", unit::ONE, COUNT);
    }))
    .note("Blades pass clamps, couplings and liners; valves, hydrants, tees, blocks, casings, encasement, tapers and collapsed lengths are dug out or gone around. The new main follows a sag: dig it out and bed it where it must not.")
}

/// A feature with its place.
fn placed(f: &Feature) -> String {
    match f.to {
        Some(to) => format!("{} from {} to {to}", f.kind, f.at),
        None => format!("{} at {}", f.kind, f.at),
    }
}

/// Whether all services are dug up.
pub(super) fn services(c: &Context<'_>) -> Item {
    let about = About::new(
        "host.services",
        "services that are not dug up before the head passes",
        Stage::Design,
        Source::new(
            "all services are excavated and taken off, IPBA article 6, October 2011",
            Evidence::Published,
        ),
    )
    .rule();
    let all: Vec<_> =
        c.renewal.host.services.iter().enumerate().filter(|(_, s)| c.in_a_run(s.at)).collect();
    let open: Vec<_> = all.iter().map(|(_, s)| s).filter(|s| s.dug_up == Some(false)).collect();
    let unknown: Vec<String> = all
        .iter()
        .filter(|(_, s)| s.dug_up.is_none())
        .map(|(i, _)| format!("/host/service/{i}/dug_up"))
        .collect();
    if open.is_empty() && !unknown.is_empty() {
        let because = format!(
            "for {} of {} services in the runs nobody says that they are dug up before the head passes",
            unknown.len(),
            all.len()
        );
        return about.not_assessed(&[], because).missing(&unknown);
    }
    #[expect(clippy::cast_precision_loss, reason = "a count of services")]
    let (count, whole) = (open.len() as f64, all.len() as f64);
    let because = match open.first() {
        None => format!("{whole} services in the runs are dug up, taken off and connected again"),
        Some(first) => format!(
            "{count} of {whole} services are not dug up, the first at {}: saddles are dragged along",
            first.at
        ),
    };
    about.at_most(one(count), one(0.0), c.renewal.factors.attention, because).worked(c.working(
        |w| {
            w.found("n", "services in the runs", "count", whole, unit::ONE, COUNT);
            w.found("k", "not dug up", "count", count, unit::ONE, COUNT);
            w.derive("U", "none is allowed", "k", unit::ONE, COUNT);
        },
    ))
}

/// Whether customers are supplied meanwhile.
pub(super) fn supply(c: &Context<'_>) -> Item {
    let about = About::new(
        "host.supply",
        "supply of customers while the main is out of service",
        Stage::Design,
        Source::new("pipe by pipe the string cannot be tested before the pull", Evidence::Derived),
    )
    .rule();
    let r = c.renewal;
    let hours: f64 =
        r.runs.iter().filter_map(|run| Some(super::super::plan::time(c, run)?.si())).sum();
    let hours_words = quantity::show_briefly(hours, unit::H);
    #[expect(clippy::cast_precision_loss, reason = "a count of services")]
    let served = r.host.services.iter().filter(|s| c.in_a_run(s.at)).count() as f64;
    let Some(planned) = r.host.temporary_supply else {
        if served == 0.0 {
            return supplied(
                c,
                about,
                0.0,
                served,
                hours,
                "no service hangs on the runs".to_owned(),
            );
        }
        return about.not_assessed(
            &["/host/temporary_supply"],
            format!("{served} services are out for more than the {hours_words} of pulling: nobody says how they are supplied"),
        );
    };
    let without = if planned { 0.0 } else { served };
    let because = if planned {
        format!(
            "a temporary supply is planned for {served} services; pulling alone takes {hours_words}, test and disinfection come on top"
        )
    } else {
        format!("{served} services have no supply for more than the {hours_words} of pulling")
    };
    supplied(c, about, without, served, hours, because)
}

fn supplied(
    c: &Context<'_>,
    about: About,
    without: f64,
    served: f64,
    hours: f64,
    because: String,
) -> Item {
    about.at_most(one(without), one(0.0), c.renewal.factors.attention, because).worked(c.working(
        |w| {
            w.found("n", "services in the runs", "count", served, unit::ONE, COUNT);
            w.found(
                "t",
                "time of pulling, all runs",
                "joints, motion and resetting",
                hours,
                unit::H,
                COUNT,
            );
            w.found("k", "services without supply", "count", without, unit::ONE, COUNT);
            w.derive("U", "none is allowed", "k", unit::ONE, COUNT);
        },
    ))
}
