//! Checks of the curves: rods, joints with their reserve, joint angle along the pull, fit of a rigid barrel.

use quantity::{Length, unit};
use working::{Evidence, Source};

use super::{GEOMETRY, degrees, metres};
use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::item::{About, Item};
use crate::quoted::from_line;

const CHAIN: Source =
    Source::new("chain of rigid barrels on the bore line, every head position", Evidence::Computed);

/// Smallest radius against what the rods may be bent to.
pub(super) fn radius_rods(c: &Context<'_>) -> Item {
    let p = c.project;
    let about = About::new(
        "line.radius-rods",
        "smallest radius against the drill rods",
        Stage::Pilot,
        p.source_of("/bore/rods/minimum_radius"),
    );
    let Some(least) = p.bore.rods.minimum_radius else {
        return about.not_assessed(
            &["/bore/rods/diameter", "/bore/rods/minimum_radius"],
            "neither the rods' diameter nor their smallest radius is given",
        );
    };
    let Some((radius, md)) = p.line.minimum_radius() else {
        let because = format!("the line has no curve; the rods may be bent to {least}");
        return about.at_most(
            Reading::new(0.0, unit::PER_M),
            Reading::new(1.0 / least.si(), unit::PER_M),
            p.factors.attention,
            because,
        );
    };
    let because = format!(
        "the tightest place has a radius of {radius} in space; the rods may be bent to {least}"
    );
    about
        .at_least(metres(radius), metres(least), p.factors.attention, because)
        .at(md)
        .worked(c.working(|w| {
            w.found(
                "R",
                "smallest radius of the line, bends in profile and in plan together",
                "1/R² = 1/R_v² + cos⁴P/R_h² at the tightest place",
                radius.si(),
                unit::M,
                GEOMETRY,
            );
            if let Some(d) = p.bore.rods.diameter
                && p.source_of("/bore/rods/minimum_radius").evidence != Evidence::Given
            {
                w.given("d", "rod diameter", d.si(), unit::MM);
                let source = p.source_of("/bore/rods/minimum_radius");
                w.result("R_rod", "smallest radius of the rods", "1200*d", least.si(), unit::M, source);
            } else {
                w.given("R_rod", "smallest radius of the rods", least.si(), unit::M);
            }
            w.derive("U", "utilisation", "R_rod/R", unit::ONE, GEOMETRY);
        }))
        .note("Figures of the maker of the rods override the rule of 1200 diameters; small rigs' rods are often quoted far below it.")
}

impl Context<'_> {
    /// Radius that uses the planned share of the allowable joint angle.
    pub(crate) fn planned_radius(&self) -> Option<Length> {
        let p = self.project;
        let angle = p.string.joint.allowable_angle.as_ref()?.value * p.factors.joint_angle_share;
        line::joint_polygon(p.string.pipe.laying_length(), angle).ok().map(|j| j.radius)
    }

    /// Smallest radius over any stretch of one laying length, and the middle of that stretch.
    pub(crate) fn radius_over_a_pipe(&self) -> Option<(Length, Length)> {
        let p = self.project;
        let (a, end) = (p.string.pipe.laying_length().si(), p.line.length().si());
        if end < a {
            // A bore shorter than a pipe has no window of one: its sharpest place counts.
            return p.line.minimum_radius();
        }
        // The window's ends are tried every half metre and where a segment begins or ends.
        let steps = (0..).map(|k| 0.5 * f64::from(k)).take_while(|s| s + a <= end);
        let marks = p.line.breakpoints().into_iter().flat_map(|b| [b.si(), b.si() - a]);
        steps
            .chain(marks.filter(|s| *s >= 0.0 && s + a <= end))
            .filter_map(|s| {
                let r = p.line.radius_over(Length::from_si(s), Length::from_si(s + a))?;
                Some((r, Length::from_si(s + a / 2.0)))
            })
            .reduce(|best, next| if next.0 < best.0 { next } else { best })
    }
}

/// Smallest radius over one pipe against what the joints allow, with a reserve for steering.
pub(super) fn radius_pipe(c: &Context<'_>) -> Item {
    let p = c.project;
    let share = p.factors.joint_angle_share;
    let about = |basis| {
        About::new(
            "line.radius-pipe",
            "smallest radius over one pipe against the joints, with steering reserve",
            Stage::Design,
            basis,
        )
    };
    let Some(angle) = &p.string.joint.allowable_angle else {
        return about(GEOMETRY).not_assessed(
            &["/string/joint/allowable_angle"],
            "the allowable angle of the joint is not known",
        );
    };
    let basis = p.source_of("/factors/joint_angle_share");
    let Some(least) = c.planned_radius() else {
        return about(basis).not_assessed(&[], "the allowable angle gives no radius");
    };
    let planned = angle.value * share;
    let Some((radius, md)) = c.radius_over_a_pipe() else {
        return about(basis).at_most(
            Reading::new(0.0, unit::PER_M),
            Reading::new(1.0 / least.si(), unit::PER_M),
            p.factors.attention,
            "the line has no curve",
        );
    };
    let because = format!(
        "the tightest pipe lies on a radius of {radius}; {} of the allowable {} per joint need at least {least}",
        quantity::show(share, unit::PERCENT),
        angle.value
    );
    about(basis)
        .at_least(metres(radius), metres(least), p.factors.attention, because)
        .at(md)
        .worked(c.working(|w| {
            c.laying_length(w);
            w.given_from(
                "delta_all",
                "allowable joint angle",
                angle.value.si(),
                unit::DEG,
                angle.source.clone(),
            );
            w.given_from(
                "q",
                "share of it that the planned line may use",
                share,
                unit::PERCENT,
                p.source_of("/factors/joint_angle_share"),
            );
            w.result("delta", "planned joint angle", "q*delta_all", planned.si(), unit::DEG, GEOMETRY);
            w.result("R_min", "radius that uses it", "a/(2*sin(delta/2))", least.si(), unit::M, GEOMETRY);
            w.found(
                "R",
                "smallest radius of the line over one laying length",
                "length of the stretch over the angle between its end tangents, profile and plan together",
                radius.si(),
                unit::M,
                GEOMETRY,
            );
            w.derive("U", "utilisation", "R_min/R", unit::ONE, GEOMETRY);
        }))
}

/// Largest joint angle during the whole pull.
pub(super) fn joint_angle(c: &Context<'_>) -> Item {
    let p = c.project;
    let allowable = p.string.joint.allowable_angle.as_ref();
    let basis = allowable.map_or(CHAIN, |a| a.source.clone());
    let about = About::new(
        "line.joint-angle",
        "largest joint angle along the whole pull",
        Stage::Pull,
        basis,
    );
    let runs: Vec<_> = match (c.design(), c.expected()) {
        (Ok(design), Ok(expected)) => vec![design, expected],
        (Err(m), _) | (_, Err(m)) => {
            return about.not_assessed(&[], m.because.clone()).missing(&m.keys);
        }
    };
    let largest = runs
        .iter()
        .filter_map(|r| r.greatest(|h| h.angle).map(|(angle, head)| (angle, head, *r)))
        .reduce(|best, next| if next.0.value > best.0.value { next } else { best });
    let Some((angle, head, run)) = largest else {
        return about.not_assessed(&[], "the pull has no head position");
    };
    let Some(allowable) = allowable else {
        return about
            .not_assessed(
                &["/string/joint/allowable_angle"],
                "the allowable angle of the joint is not known",
            )
            .acting(degrees(angle.value))
            .at(angle.md);
    };
    let a = p.string.pipe.laying_length();
    let behind = (angle.md - head.md).si();
    let which = if behind < 1.5 * a.si() {
        format!(
            "the first joint behind the head turns by {}; swivel and shackles of {} let the head ride off the axis by a little",
            angle.value, p.string.head_link
        )
    } else {
        format!("the joint at {} turns by {}", angle.md, angle.value)
    };
    let within = head.angle_within.value;
    let others = if within.to_string() == angle.value.to_string() {
        String::new()
    } else {
        format!("; between the end joints the largest angle is then {within}")
    };
    let because = format!(
        "with the head at {} {which}{others}; the play of the sockets in the bore is included",
        head.md
    );
    about
        .at_most(degrees(angle.value), degrees(allowable.value), p.factors.attention, because)
        .at(angle.md)
        .joints(c.joints(run, head))
        .worked(c.working(|w| {
            let a = p.string.pipe.laying_length();
            c.laying_length(w);
            let window = Length::metres(2.0) + a;
            let from = (angle.md - window / 2.0).max(Length::ZERO);
            let to = (angle.md + window / 2.0).min(p.line.length());
            if let Some(r) = p.line.radius_over(from, to) {
                w.found(
                    "R",
                    "radius of the bore axis around that joint",
                    "stretch over the angle between its end tangents",
                    r.si(),
                    unit::M,
                    GEOMETRY,
                );
                w.derive("delta_axis", "joint angle if joints rode on the axis", "2*asin(a/(2*R))", unit::DEG, GEOMETRY);
            }
            w.found(
                "delta",
                "largest joint angle",
                "joints where the taut chain rides in the bore; largest over all head positions and both sets of friction",
                angle.value.si(),
                unit::DEG,
                CHAIN,
            );
            w.given_from("delta_all", "allowable joint angle", allowable.value.si(), unit::DEG, allowable.source.clone());
            w.derive("U", "utilisation", "delta/delta_all", unit::ONE, GEOMETRY);
        }))
        .note("Published allowable angles differ strongly between makers; use the certificate of the joint that is bought.")
        .note("An angle above the allowable one is a failure: there is no capacity to claim beyond it.")
}

/// Whether a rigid barrel passes the curve between two sockets.
pub(super) fn barrel_fit(c: &Context<'_>) -> Item {
    let p = c.project;
    let pipe = &p.string.pipe;
    let about = About::new(
        "line.barrel-fit",
        "bore that a rigid barrel needs in the tightest curve",
        Stage::Pull,
        GEOMETRY,
    );
    let Some(socket) = c.largest_diameter else {
        return about.not_assessed(
            &["/string/socket_diameter"],
            "the largest outside diameter of the string is not known",
        );
    };
    let bore = p.bore.final_diameter;
    let (barrel, a) = (pipe.barrel_diameter(), pipe.laying_length());
    let mm = |l: Length| Reading::new(l.si(), unit::MM);
    let Some((radius, md)) = c.radius_over_a_pipe() else {
        return about.at_most(mm(socket), mm(bore), p.factors.attention, "the line has no curve");
    };
    let needed = match line::bore_for_barrel(barrel, socket, a, radius) {
        Ok(needed) => needed.bore_diameter,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let gap = c.design().as_ref().ok().and_then(|run| {
        run.pull
            .heads
            .iter()
            .map(|h| h.clearance)
            .reduce(|best, next| if next.value < best.value { next } else { best })
    });
    let gap_text = gap.map_or_else(String::new, |g| {
        let width = quantity::show_briefly(g.value.si().abs(), unit::MM);
        if g.value.si() < 0.0 {
            format!(
                "; in the pull the tightest barrel would reach {width} into the wall at {}",
                g.md
            )
        } else {
            format!("; in the pull the tightest barrel keeps {width} to the wall at {}", g.md)
        }
    });
    let because = format!(
        "socket to socket on a radius of {radius} the barrel needs a bore of {}{gap_text}",
        quantity::show_briefly(needed.si(), unit::MM)
    );
    about.at_most(mm(needed.max(socket)), mm(bore), p.factors.attention, because).at(md).worked(
        c.working(|w| {
            c.barrel(w);
            c.socket(w, "D_s", socket);
            c.laying_length(w);
            from_line(w, "R", "smallest radius over one pipe", radius.si(), unit::M);
            w.result(
                "D_min",
                "bore without play",
                "(D + D_s)/2 + a^2/(8*R)",
                needed.si(),
                unit::MM,
                GEOMETRY,
            );
            w.derive("D_fit", "not below the socket itself", "max(D_min, D_s)", unit::MM, GEOMETRY);
            w.given_from(
                "D_b",
                "bore diameter",
                bore.si(),
                unit::MM,
                p.source_of("/bore/final_diameter"),
            );
            w.derive("U", "utilisation", "D_fit/D_b", unit::ONE, GEOMETRY);
        }),
    )
}
