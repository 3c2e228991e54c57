//! The pull while it moves: what its workings share, and the greatest tension against the joint.

use pull::chain::HeadPosition;
use pull::published::{self, SoftString, SoftStringElement};
use quantity::{Angle, Force, Length, unit};
use working::{Builder, Evidence, Source};

use super::RATIO;
use crate::assessment::{Reading, Stage, Status};
use crate::context::{Context, Run};
use crate::item::{About, Item};
use crate::quoted::{from_chain, from_line};

pub(super) const MARCH: Source =
    Source::new("balance of forces joint by joint along the bore", Evidence::Derived);

pub(super) fn kilonewtons(force: Force) -> Reading {
    Reading::new(force.si(), unit::KN)
}

/// Opens the working of a force with what went into the march.
pub(super) fn inputs(c: &Context<'_>, run: &Run, w: &mut Builder) {
    let p = c.project;
    c.laying_length(w);
    from_line(w, "L", "length of the bore", p.line.length().si(), unit::M);
    c.mass(w);
    w.given_from(
        "rho_f",
        "density of the fluid in the bore",
        p.fluid.density.si(),
        unit::KG_PER_M3,
        p.source_of("/fluid/density"),
    );
    w.found(
        "w",
        "net weight in the fluid per length, positive sinks",
        "mass of pipe and contents less the fluid displaced, times g (worksheet net-weight)",
        c.net_weight.si(),
        unit::N_PER_M,
        Source::new("hydrostatics", Evidence::Derived),
    );
    w.given_from(
        "mu",
        "friction on the bore wall",
        run.friction,
        unit::ONE,
        p.source_of("/factors/friction_bore"),
    );
    w.given_from(
        "tau",
        "shear stress of the fluid",
        run.fluid_stress.si(),
        unit::PA,
        p.source_of("/factors/fluid_stress"),
    );
    c.barrel(w);
    from_line(w, "theta", "turn of the whole line", p.line.total_turn().si(), unit::DEG);
    w.derive("F_drag", "fluid drag on the whole string", "tau*pi*D*L", unit::KN, MARCH);
    w.derive(
        "F_weight",
        "wall friction of the net weight on a level bore of this length",
        "mu*abs(w)*L",
        unit::KN,
        MARCH,
    );
    w.derive(
        "k_turn",
        "factor by which the turn multiplies a force from the very tail",
        "exp(mu*theta)",
        unit::ONE,
        Source::new("capstan", Evidence::Derived),
    );
}

/// The sentence that compares with the expected values.
pub(super) fn beside(c: &Context<'_>, value: impl Fn(&Run) -> Option<(Force, Length)>) -> String {
    match c.expected().as_ref().ok().and_then(value) {
        Some((force, head)) => format!(
            "; with the friction expected in a well-kept bore it is {force}, with the head at {head}"
        ),
        None => String::new(),
    }
}

/// Methods made for such a crossing whose high end exceeds a limit, in words; `more` is what the limit carries besides.
pub(super) fn exceeded_by(c: &Context<'_>, limit: Force, more: Force) -> Vec<String> {
    c.methods()
        .iter()
        .filter(|m| m.applicable && m.id != "chain")
        .filter_map(|m| {
            let high = Force::from_si(m.force?.1.value) + more;
            let split = if more > Force::ZERO {
                format!(" ({} and {more} for the reamer)", high - more)
            } else {
                String::new()
            };
            (high > limit).then(|| format!("{} gives up to {high}{split}", m.name))
        })
        .collect()
}

impl Item {
    /// Attention where a method of the band exceeds the limit that the chain meets.
    pub(super) fn beside_the_band(mut self, exceeded: &[String]) -> Self {
        let (Some(limit), false) = (self.check.limit, exceeded.is_empty()) else { return self };
        let limit = Force::from_si(limit.value);
        let exceeded = exceeded.join(", ");
        self.check.because.push_str(&if self.check.status == Status::Fail {
            format!("; above the limit of {limit} by another method, too: {exceeded}")
        } else {
            format!("; attention, because {exceeded}, above the limit of {limit}")
        });
        if self.check.status == Status::Pass {
            self.check.status = Status::Attention;
        }
        self
    }
}

/// Greatest tension against the permitted pull of the joint.
pub(super) fn joint_force(c: &Context<'_>) -> Item {
    let p = c.project;
    let permitted = p.string.joint.permitted_pull.as_ref();
    let about = About::new(
        "pull.joint-force",
        "greatest tension in the string against the joint",
        Stage::Pull,
        permitted.map_or(MARCH, |v| v.source.clone()),
    );
    let run = match c.design() {
        Ok(run) => run,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let Some((tension, head)) = run.tension() else {
        return about.not_assessed(&[], "the pull has no head position");
    };
    let Some(permitted) = permitted else {
        return about
            .not_assessed(
                &["/string/joint/permitted_pull"],
                "the permitted pull of the joint is not known",
            )
            .acting(kilonewtons(tension.value))
            .at(tension.md);
    };
    let mut because = format!(
        "greatest with the head at {}, {} of it from the string outside the bore{}",
        head.md,
        head.outside,
        beside(c, |r| r.tension().map(|(t, head)| (t.value, head.md)))
    );
    let back = run.held_back();
    if back > Force::ZERO {
        because.push_str(&format!(
            "; the string runs ahead by its weight and must be held back with {back}: joints that are pushed may unlock"
        ));
    }
    let mut item = about
        .at_most(
            kilonewtons(tension.value),
            kilonewtons(permitted.value),
            p.factors.attention,
            because,
        )
        .at(tension.md)
        .beside_the_band(&exceeded_by(c, permitted.value, Force::ZERO))
        .joints(c.joints(run, head))
        .worked(c.working(|w| {
            inputs(c, run, w);
            from_chain(w, "s_head", "head's measured distance from the entry point", head.md.si(), unit::M);
            from_chain(w, "F_out", "pull of the string outside the bore then", head.outside.si(), unit::KN);
            w.found(
                "T",
                "greatest tension",
                "at each joint T_f = (T_b*(e_b·t) + W*(z·t) + D + mu*N)/(e_f·t), N the force on the wall, t the direction in which the joint slides, e_b and e_f the barrels behind and ahead; from the tail to the head, for every head position",
                tension.value.si(),
                unit::KN,
                MARCH,
            );
            soft_string(c, run, head, w);
            w.given_from(
                "T_perm",
                "permitted pull of the joint",
                permitted.value.si(),
                unit::KN,
                permitted.source.clone(),
            );
            w.derive("U", "utilisation", "T/T_perm", unit::ONE, RATIO);
        }))
        .note("Permitted pulls of different documents disagree (`underhaul tables joints`); the certificate of the joint that is bought decides.")
        .note("The string outside the bore is taken as empty: ballast water goes in where the string enters. Its length counts whole pipes.")
        .note("The permitted force holds only while the allowable joint angle is kept at the same time.");
    if back > Force::ZERO && item.check.status == Status::Pass {
        item.check.status = Status::Attention;
    }
    item
}

/// Length of an element of the soft string for comparison.
const ELEMENT: f64 = 0.05;

/// The same pull without barrels, joints and bore wall: a string on the axis of the bore. An estimate that a reader can
/// repeat on a sheet.
fn soft_string(c: &Context<'_>, run: &Run, head: &HeadPosition, w: &mut Builder) {
    let p = c.project;
    let line = &p.line;
    let span = line.length() - head.md;
    let count = (span.si() / ELEMENT).ceil().max(1.0);
    let step = span.si() / count;
    // Against the measured distance: the string is pulled from the exit point to the rig.
    let numbers = (0..).map(f64::from).take_while(|i| *i <= count);
    let stations: Vec<_> = numbers.map(|i| line.sample(line.length().si() - step * i)).collect();
    let elements: Vec<_> = stations
        .windows(2)
        .map(|pair| {
            let (a, b) = (&pair[0], &pair[1]);
            let (i, j) = (-a.inclination, -b.inclination);
            let turn = a.tangent.angle_between(b.tangent).powi(2) - (j - i).si().powi(2);
            let across = turn.max(0.0).sqrt() / ((i + j) * 0.5).si().cos();
            SoftStringElement {
                length: Length::from_si(step),
                inclination: (i + j) * 0.5,
                inclination_change: j - i,
                azimuth_change: Angle::from_si(across),
            }
        })
        .collect();
    let string = SoftString {
        diameter: p.string.pipe.barrel_diameter(),
        net_weight: c.net_weight,
        friction: run.friction,
        fluid_stress: run.fluid_stress,
    };
    let Ok(after) = published::soft_string(&string, head.outside, &elements) else { return };
    let Some(at_head) = after.last() else { return };
    w.found(
        "T_soft",
        "for comparison: soft string on the axis of the bore, from F_out to the head",
        "dT = mu*sqrt((T*di - w*ds*cos(i))^2 + (T*dpsi*cos(i))^2) + tau*pi*D*ds + w*ds*sin(i)",
        at_head.si(),
        unit::KN,
        published::SOFT_STRING.source(),
    );
}
