//! Where the design lies in a grid.

use ground::GroundLine;
use quantity::{Length, unit};

use crate::context::{Ask, Context};
use crate::coordinates::{Coordinates, HostCoordinates, HostPoint};
use crate::given::Given;
use crate::tree::Tree;
use crate::value::Reading;
use crate::wording::shown;

/// Share of a chainage difference by which the plan length between two points may differ from it.
// Judgement: chainage is taped or follows from records, grids stretch lengths by less than 0.1 %, and points along a
// bend of up to 25 deg lie 0.8 % nearer to each other than the main is long.
const SHARE_OFF: f64 = 0.01;
/// Difference between plan length and chainage that is always borne, m.
// Judgement: points picked up in a street lie within some decimetres.
const LENGTH_OFF: f64 = 0.3;
/// Difference between two statements of one coordinate that is taken as none, m.
const SAME_PLACE: f64 = 1e-3;
/// Difference of chainage that is taken as none, m.
const SAME_CHAINAGE: f64 = 1e-6;

/// Coordinates of a drilled crossing; `None` where none were given, or where an error was noted.
pub(super) fn of_crossing(tree: &Tree, cx: &mut Context<'_>) -> Option<Coordinates> {
    let record = tree.one("coordinates")?;
    let mut ask = cx.ask(record);
    let epsg = ask.integer("epsg").map(|g| g.value);
    let [easting, northing] =
        ["easting", "northing"].map(|key| ask.number(key).map(|g| Length::from_si(g.value)));
    let datum = ask.text("datum").map(|t| t.value);
    let line = tree.one("line")?;
    for (key, value) in [("entry_easting", easting), ("entry_northing", northing)] {
        let mut ask = cx.ask(line);
        let (Some(other), Some(value)) = (ask.number(key), value) else { continue };
        if (other.value - value.si()).abs() > SAME_PLACE {
            let (found, expected) = (metres(other.value), metres(value.si()));
            let message =
                format!("{key} is {found}, but [coordinates] has the entry point at {expected}");
            ask.error("conflict", key, message)
                .found(found)
                .allowed(expected)
                .hint("the borings are placed by [coordinates] too: take the line out of [line], or give both in one grid");
        }
    }
    Some(Coordinates { epsg: epsg?, easting: easting?, northing: northing?, datum })
}

/// Coordinates of an old main; `None` where none were given, or where an error was noted.
pub(super) fn of_host(
    tree: &Tree,
    cx: &mut Context<'_>,
    axis: Option<&GroundLine>,
) -> Option<HostCoordinates> {
    let mut ask = cx.ask(tree.one("coordinates")?);
    let epsg = ask.integer("epsg").map(|g| g.value);
    let datum = ask.text("datum").map(|t| t.value);
    let Given { value: Reading::Rows(rows), place } = ask.reading("points")? else { return None };
    if rows.len() < 2 {
        ask.error_at("too_few", &place, "points must have at least two entries, but has one")
            .found("1")
            .allowed("at least 2")
            .hint("give the ends of the old main, and a point wherever it turns");
        return None;
    }
    let errors = ask.errors();
    for (i, pair) in rows.windows(2).enumerate() {
        if let [one, two] = pair {
            between(&mut ask, i + 2, one, two);
        }
    }
    let points: Vec<_> = rows.iter().filter_map(|row| point(row)).collect();
    if ask.errors() == errors {
        covers(&mut ask, axis, &points);
    }
    (ask.errors() == errors).then_some(())?;
    Some(HostCoordinates { epsg: epsg?, points, datum })
}

fn point(row: &[Given<f64>]) -> Option<HostPoint> {
    let [x, east, north] = row else { return None };
    let [chainage, easting, northing] = [x, east, north].map(|g| Length::from_si(g.value));
    Some(HostPoint { chainage, easting, northing })
}

/// Chainage rises from point to point, and the plan is about as long as the chainage says.
fn between(ask: &mut Ask<'_, '_, '_>, number: usize, one: &[Given<f64>], two: &[Given<f64>]) {
    let ([x1, e1, n1], [x2, e2, n2]) = (one, two) else { return };
    let along = x2.value - x1.value;
    if along <= 0.0 {
        let (found, before) = (metres(x2.value), metres(x1.value));
        let message =
            format!("chainage of point {number} must be greater than {before}, but was {found}");
        ask.error_at("not_rising", &x2.place, message)
            .found(found)
            .allowed(format!("greater than {before}"))
            .hint("write the points as [chainage, easting, northing] in the order of the chainage");
        return;
    }
    let plan = (e2.value - e1.value).hypot(n2.value - n1.value);
    let borne = LENGTH_OFF + SHARE_OFF * along;
    if (plan - along).abs() <= borne {
        return;
    }
    let [least, most] = [(along - borne).max(0.0), along + borne].map(metres);
    let message = format!(
        "points {} and {number} lie {} apart in plan, but {} by their chainage",
        number - 1,
        metres(plan),
        metres(along)
    );
    ask.error_at("plan_off_chainage", &e2.place, message)
        .found(metres(plan))
        .allowed(format!("{least} to {most}: the chainage difference, 1 % and 0.3 m more or less"))
        .hint("check easting and northing, their order and their unit, and give a point wherever the main turns");
}

/// The points reach over the whole old main.
fn covers(ask: &mut Ask<'_, '_, '_>, axis: Option<&GroundLine>, points: &[HostPoint]) {
    let (Some(axis), Some(first), Some(last)) = (axis, points.first(), points.last()) else {
        return;
    };
    let (from, to) = (first.chainage, last.chainage);
    let short = (from - axis.from()).si() > SAME_CHAINAGE || (axis.to() - to).si() > SAME_CHAINAGE;
    if short {
        let message = format!(
            "the points reach from chainage {from} to {to}, the axis of the old main from {} to {}",
            axis.from(),
            axis.to()
        );
        ask.error("points_too_short", "points", message)
            .found(format!("{from} to {to}"))
            .allowed(format!("at least {} to {}", axis.from(), axis.to()))
            .hint("add a point at each end of the axis of [host]");
    }
}

/// Coordinates need more digits than other lengths: to the millimetre.
fn metres(value: f64) -> String {
    let exact = (value * 1e3).round() / 1e3;
    if exact.abs() < 1e4 { shown(exact, unit::M) } else { format!("{exact} m") }
}
