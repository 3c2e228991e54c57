//! Joints and barrels in the pull, and the finished main.

use quantity::{Length, Pressure, unit};
use working::{Evidence, Source};

use super::force::above;
use super::force_lines::string_lines;
use super::{RATIO, kilonewtons};
use crate::assessment::{Reading, Stage};
use crate::checks::{PressureCase, pressure_of};
use crate::item::{About, Item};
use crate::renewal::context::Context;
use crate::renewal::forces::{HIGH, PLANNING, RunForces};

/// The run with the greatest force in the string for planning.
fn worst(runs: &[RunForces]) -> Option<&RunForces> {
    runs.iter().reduce(|a, b| if b.string[PLANNING] > a.string[PLANNING] { b } else { a })
}

/// Greatest force in the string against the joint.
pub(super) fn joint_force(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let permitted = r.string.joint.permitted_pull.as_ref();
    let about = About::new(
        "pull.joint-force",
        "force in the string against the joint: planning value of the band",
        Stage::Pull,
        permitted.map_or(RATIO, |v| v.source.clone()),
    );
    let runs = match c.forces() {
        Ok(runs) => runs,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let Some(f) = worst(runs) else {
        return about.not_assessed(&["/run"], "no run is given");
    };
    let (Some(run), force) = (r.runs.get(f.run), f.string[PLANNING]) else {
        return about.not_assessed(&["/run"], "no run is given");
    };
    let Some(permitted) = permitted else {
        return about
            .not_assessed(
                &["/string/joint/permitted_pull"],
                "the permitted pull of the joint is not known",
            )
            .acting(kilonewtons(force))
            .at(run.machine);
    };
    let highest = runs
        .iter()
        .filter(|other| {
            other.run != f.run && other.string[HIGH] > permitted.value.max(f.string[HIGH])
        })
        .find_map(|other| Some((r.runs.get(other.run)?, other.string[HIGH])));
    let elsewhere = highest.map_or(String::new(), |(other, high)| {
        format!("; run {} reaches {high} at the high end", other.name)
    });
    let because = format!(
        "run {}, first joint behind the head at the end of the run: only drag and weight, not what opens the old main; band {} to {}{}{elsewhere}",
        run.name,
        f.string[0],
        f.string[HIGH],
        above(f.string[HIGH], permitted.value)
    );
    about
        .at_most(kilonewtons(force), kilonewtons(permitted.value), r.factors.attention, because)
        .at(run.machine)
        .attend(f.string[HIGH] > permitted.value || highest.is_some())
        .worked(c.working(|w| {
            string_lines(c, f, w);
            w.given_from("T_perm", "permitted pull of the joint", permitted.value.si(), unit::KN, permitted.source.clone());
            w.derive("U", "utilisation", "F_string/T_perm", unit::ONE, RATIO);
        }))
        .note("Put the load cell between expander and pipe: the gauge of the machine reads what opens the old main as well. One German standard asks for the force on the new pipe to be measured and recorded all along.")
}

/// Axial stress of the barrel.
pub(super) fn barrel(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let key = "/factors/barrel_share";
    let about =
        About::new("pull.barrel", "axial stress of the barrel", Stage::Pull, r.source_of(key));
    let runs = match c.forces() {
        Ok(runs) => runs,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let Some(f) = worst(runs) else {
        return about.not_assessed(&["/run"], "no run is given");
    };
    let pipe = &r.string.pipe;
    let (de, e) = (pipe.outside_diameter(), pipe.wall_min());
    let area = std::f64::consts::PI * (de - e).si() * e.si();
    let stress = Pressure::from_si(f.string[PLANNING].si() / area);
    let limit = pipe.proof_strength() * r.factors.barrel_share;
    let mpa = |p: Pressure| Reading::new(p.si(), unit::MPA);
    let because = format!("{} in the string over the least wall", f.string[PLANNING]);
    about.at_most(mpa(stress), mpa(limit), r.factors.attention, because).worked(c.working(|w| {
        w.found(
            "T",
            "force in the string, planning",
            "see pull.joint-force",
            f.string[PLANNING].si(),
            unit::KN,
            RATIO,
        );
        let data = pipe.data();
        w.given_from(
            "DE",
            "outside diameter of the iron",
            de.si(),
            unit::MM,
            data.outside_diameter.source.clone(),
        );
        w.given_from("e", "least wall", e.si(), unit::MM, data.wall_min.source.clone());
        w.result(
            "sigma",
            "axial stress",
            "T/(pi*(DE - e)*e)",
            stress.si(),
            unit::MPA,
            Source::new("statics", Evidence::Derived),
        );
        w.given_from(
            "f_y",
            "0.2 % proof strength",
            pipe.proof_strength().si(),
            unit::MPA,
            data.proof_strength.source.clone(),
        );
        w.given_from(
            "q",
            "share that may be used",
            r.factors.barrel_share,
            unit::ONE,
            r.source_of(key),
        );
        w.derive("U", "utilisation", "sigma/(q*f_y)", unit::ONE, RATIO);
    }))
}

/// Pressures of the finished main.
pub(super) fn service(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let lowest = r.host.axis.points().map(|(_, z)| z).reduce(Length::min).unwrap_or(Length::ZERO);
    pressure_of(&PressureCase {
        string: &r.string,
        service: &r.service,
        lowest,
        attention: r.factors.attention,
        reference_source: r.source_of("/service/reference_level"),
        explaining: c.explaining(),
    })
}
