//! Cover over the bore and clearance to what it passes.

use ground::{Obstacle, ObstacleKind, Shape};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::metres;
use crate::assessment::Stage;
use crate::context::Context;
use crate::item::{About, Item};
use crate::quoted::{from_ground, from_line};

const GEOMETRY: Source = Source::new("least distance, exact geometry", Evidence::Derived);

/// Least cover outside the end zones.
pub(super) fn cover(c: &Context<'_>) -> Item {
    let p = c.project;
    let site = &p.site;
    let radius = p.bore.final_diameter / 2.0;
    let (from, to) = (site.end_zone_entry, p.line.run() - site.end_zone_exit);
    let about = About::new(
        "line.cover",
        "least cover between the end zones",
        Stage::Design,
        p.source_of("/site/required_cover"),
    );
    if to <= from {
        return about.not_assessed(
            &["/site/end_zone_entry", "/site/end_zone_exit"],
            "the two end zones leave no stretch between them",
        );
    }
    let least = match ground::least_cover(&p.line, &site.ground, radius, from, to) {
        Ok(least) => least,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let place = if least.vertical.si() < 0.0 {
        format!("stands {} above ground", -least.vertical)
    } else {
        format!("lies {} below ground", least.vertical)
    };
    let allowance = allowance(c, least.md);
    let because = format!(
        "at chainage {} the crown of the bore of {} {place} on the planned line (cover {} if it lies higher by the {allowance} allowed for its uncertain position); end zones of {} and {} are left out",
        least.chainage,
        quantity::show_briefly(p.bore.final_diameter.si(), unit::MM),
        least.vertical - allowance,
        site.end_zone_entry,
        site.end_zone_exit
    );
    about
        .at_least(metres(least.vertical), metres(site.required_cover), p.factors.attention, because)
        .at(least.md)
        .worked(c.working(|w| {
            from_ground(w, "z_g", "ground level above the tightest place", least.ground_level.si(), unit::M);
            w.found(
                "z_c",
                "level of the bore's crown there",
                "axis level plus half the bore diameter over the cosine of the inclination",
                least.crown_level.si(),
                unit::M,
                GEOMETRY,
            );
            w.result("H", "cover over the crown", "z_g - z_c", least.vertical.si(), unit::M, GEOMETRY);
            w.given_from(
                "H_req",
                "required cover",
                site.required_cover.si(),
                unit::M,
                p.source_of("/site/required_cover"),
            );
            w.derive("U", "utilisation", "H_req/H", unit::ONE, GEOMETRY);
        }))
        .note(format!(
            "In the end zones cover runs out: fluid is expected at the surface there and belongs in the pits. Entry: the first {}; exit: the last {}.",
            site.end_zone_entry, site.end_zone_exit
        ))
}

/// One check an obstacle.
pub(super) fn obstacles(c: &Context<'_>) -> Vec<Item> {
    let obstacles = &c.project.site.obstacles;
    let ids = project::obstacle_ids(obstacles);
    obstacles.iter().zip(ids).enumerate().map(|(i, (o, id))| obstacle(c, o, i, &id)).collect()
}

/// Id of the check of an obstacle.
pub(super) fn id(obstacle: &str) -> String {
    format!("line.clearance.{obstacle}")
}

fn obstacle(c: &Context<'_>, obstacle: &Obstacle, index: usize, id: &str) -> Item {
    let p = c.project;
    let key = format!("/site/obstacle/{index}/clearance");
    let about = About::new(
        self::id(id),
        format!("clearance to {} ({})", obstacle.name, obstacle.kind.word()),
        Stage::Design,
        Source::new("required clearance given for this obstacle", Evidence::Given),
    );
    let radius = p.bore.final_diameter / 2.0;
    let found = match ground::clearance(&p.line, obstacle, radius) {
        Ok(found) => found,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let place = far_end(c, obstacle);
    let allowance = allowance(c, place);
    let clear = found.gap - allowance;
    let Some(required) = obstacle.clearance else {
        return about
            .not_assessed(&[&key], "the required clearance is not given")
            .acting(metres(clear))
            .at(found.md);
    };
    let what = match obstacle.shape {
        Shape::Above { underside, .. } => format!("its underside at {underside}"),
        Shape::Round { level, diameter, .. } => {
            format!("its body of {} at {level}", quantity::show_briefly(diameter.si(), unit::MM))
        }
    };
    let passes = if found.gap.si() < 0.0 {
        format!("cuts {what} by {}", -found.gap)
    } else {
        format!("passes {what} with {}", found.gap)
    };
    let because = format!(
        "the edge of the reamed bore {passes}; {allowance} are taken off for the uncertain position of the bore"
    );
    about
        .at_least(metres(clear), metres(required), p.factors.attention, because)
        .at(found.md)
        .worked(c.working(|w| {
            w.found(
                "g",
                "gap from the edge of the reamed bore to the edge of the obstacle",
                "least distance along the line, less half the final bore diameter (and half the obstacle's)",
                found.gap.si(),
                unit::M,
                GEOMETRY,
            );
            from_line(w, "s", "measured distance of the obstacle's far end from the entry point", place.si(), unit::M);
            w.given_from(
                "q",
                "spread of the bore's position per measured distance, one standard deviation",
                p.factors.position_spread,
                unit::PERCENT,
                p.source_of("/factors/position_spread"),
            );
            w.given_from(
                "k",
                "standard deviations to keep",
                p.factors.position_multiple,
                unit::ONE,
                p.source_of("/factors/position_multiple"),
            );
            w.result("e", "allowance for the uncertain position", "k*q*s", allowance.si(), unit::M, POSITION);
            w.result("c", "clearance that is left", "g - e", clear.si(), unit::M, GEOMETRY);
            w.given("c_req", "required clearance", required.si(), unit::M);
            w.derive("U", "utilisation", "c_req/c", unit::ONE, GEOMETRY);
        }))
        .note(rule_of_thumb(obstacle.kind))
        .note("Expose every crossing utility before drilling; records of old services are seldom exact.")
}

const POSITION: Source = Source::new(
    "position error grows with measured distance, systematic part only",
    Evidence::Derived,
);

/// Where the position of the bore is least certain beside an obstacle: its end away from the rig.
fn far_end(c: &Context<'_>, obstacle: &Obstacle) -> Length {
    let line = &c.project.line;
    let chainage = match obstacle.shape {
        Shape::Above { to, .. } => to,
        Shape::Round { at, .. } => at,
    };
    let inside = chainage.min(line.run()).max(Length::ZERO);
    line.md_at_chainage(inside).unwrap_or(line.length())
}

/// The bore is located from the rig: what its position has run off grows from the entry point.
fn allowance(c: &Context<'_>, md: Length) -> Length {
    let f = &c.project.factors;
    md * (f.position_spread * f.position_multiple)
}

/// What is usually asked of a bore beside such an obstacle.
fn rule_of_thumb(kind: ObstacleKind) -> &'static str {
    match kind {
        ObstacleKind::Watercourse => {
            "Under rivers 5 to 6 m below the bed and 1.5 to 3 m below scour are usual, 3 m below the lining of a canal (from memory, to be confirmed); the owner decides."
        }
        ObstacleKind::Road => {
            "Cover under a road and its shoulder by pipe diameter: worksheet road-cover (published); the owner decides."
        }
        ObstacleKind::Railway => {
            "Under rail 3.7 to 6 m below the base of the rail are usual (from memory, to be confirmed); crossings at a right angle or at least 45 deg, and no bore within 45 ft of structures (published railway manual); the owner decides."
        }
        ObstacleKind::Embankment => {
            "Water defences: at least 10 m of soil in Dutch rules; one army corps prohibits boring through an embankment and reviews bores within their depth of its toe (published); the authority decides."
        }
        ObstacleKind::Main | ObstacleKind::Cable | ObstacleKind::Drain => {
            "Trade rule to crossing services 1.5 ft (0.46 m) each side (published); potable water to sewer 3 m beside or 0.45 m above (from memory, to be confirmed); the owner decides."
        }
        ObstacleKind::Building | ObstacleKind::Other => {
            "No general rule: clearance follows from movement of the ground and from the owner."
        }
    }
}
