//! The pull force by each method, side by side: a band, never one number.

use line::Segment;
use project::Assembly;
use pull::published::{
    self, Arc, BendPlane, Contact, F1962, Ground, MiniRule, PathPart, PublishedError, Stage,
    StageBend, StageForm, StiffPipe,
};
use quantity::{Angle, Force, Length, Pressure, unit};
use working::{Evidence, Source};

use crate::assessment::{Method, Reading};
use crate::context::Context;

/// Every method for the crossing.
pub(crate) fn all(c: &Context<'_>) -> Vec<Method> {
    vec![
        chain(c),
        f1962(c),
        stiff_arcs(c),
        stage_form(c),
        quick_rule(c),
        weight_share(c),
        mini_rule(c),
    ]
}

type Band = Result<(Force, Force), PublishedError>;

/// Sum of metres and millimetres less the offset below which the quick rule is too near its zero to say anything.
/// Judgement: the rule goes negative for short small bores and its source gives no range.
const QUICK_RULE_FROM: f64 = 150.0;
/// Turn in plan below which a line counts as straight in plan; judgement: a friction of 0.5 adds less than 1 % over it.
const NO_BEND_IN_PLAN: Angle = Angle::from_si(std::f64::consts::PI / 180.0);
/// Largest pipe and longest bore of the class of rigs for which the one-third rule was made: 12 in and 600 ft, Najafi,
/// Trenchless Technology Piping, p. 32, table 1.5.
const MINI_RULE_TO: (f64, f64) = (0.305, 183.0);

fn method(id: &str, record: &published::Method, band: Band, remark: String) -> Method {
    let remark = match &band {
        Ok(_) => remark,
        Err(e) => format!("no value: {e}. {remark}"),
    };
    Method {
        id: id.to_owned(),
        name: record.name.to_owned(),
        force: band.ok().map(|(low, high)| {
            let kn = |f: Force| Reading::new(f.si(), unit::KN);
            (kn(low), kn(high))
        }),
        at: None,
        applicable: true,
        source: record.source(),
        remark,
        validity: record.validity.to_owned(),
    }
}

fn pascals(stress: Pressure) -> String {
    quantity::show(stress.si(), unit::PA)
}

fn chain(c: &Context<'_>) -> Method {
    let f = &c.project.factors;
    let design = c.design().as_ref().ok().and_then(|r| r.head_force());
    let expected = c.expected().as_ref().ok().and_then(|r| r.head_force());
    let kn = |f: Force| Reading::new(f.si(), unit::KN);
    let remark = match (c.design(), design.zip(expected)) {
        (Ok(_), Some((design, expected))) => format!(
            "friction {} and {} expected (head at {}), {} and {} for the checks (head at {})",
            f.friction_bore_expected,
            pascals(f.fluid_stress_expected),
            expected.md,
            f.friction_bore,
            pascals(f.fluid_stress),
            design.md
        ),
        (Err(m), _) => format!("no value: {}", m.because),
        (Ok(_), None) if c.expected().is_err() => {
            "no value: the pull with the expected friction could not be computed".to_owned()
        }
        _ => "no value".to_owned(),
    };
    Method {
        id: "chain".to_owned(),
        name: "chain of rigid barrels (the checks use it)".to_owned(),
        force: design.zip(expected).map(|(d, e)| {
            let (low, high) = (d.force.min(e.force), d.force.max(e.force));
            (kn(low), kn(high))
        }),
        at: design.map(|h| h.md.si()),
        applicable: true,
        source: Source::new(
            "balance of forces joint by joint, sockets riding on the bore wall",
            Evidence::Derived,
        ),
        remark,
        validity: "strings of rigid barrels with hinged joints; barrels do not bend, friction acts along the pull only"
            .to_owned(),
    }
}

fn f1962(c: &Context<'_>) -> Method {
    let p = c.project;
    let line = &p.line;
    // The level run of the form: the stretch within a millimetre of the lowest place.
    let (from, to) = line.lowest_stretch(Length::metres(1e-3));
    let low = line.lowest().level;
    let end = line.sample(line.length().si());
    let start = line.sample(0.0);
    let given = F1962 {
        weight_air: c.weight_outside(),
        weight_net_up: -c.net_weight,
        extra_length: p.string.extra_length,
        transition_pipe_side: line.run() - to,
        level_length: to - from,
        transition_rig_side: from,
        depth: (end.level - low).max(Length::ZERO),
        depth_rig_side: (start.level - low).max(Length::ZERO),
        angle_pipe_side: end.inclination.max(Angle::ZERO),
        angle_rig_side: (-start.inclination).max(Angle::ZERO),
        friction_surface: p.string.support_friction,
        friction_bore: p.factors.friction_bore,
    };
    let whole = p.string.assembly == Assembly::String;
    let band = published::f1962(&given).and_then(|forces| {
        let more = published::hydrokinetic_force(
            p.fluid.excess_pressure,
            p.bore.final_diameter,
            p.string.pipe.barrel_diameter(),
        )?;
        let peak = forces.peak().0;
        Ok((peak, peak + more))
    });
    let found = method(
        "f1962",
        &published::F1962_METHOD,
        band,
        "without and with the hydrokinetic term (that term is from memory, to be confirmed); made for plastic pipe, knows no bends in plan, takes the transitions and each side's depth as they are in this line, and the whole string on the surface"
            .to_owned(),
    );
    // The form pulls the whole string from the surface along a line without bends in plan.
    let in_plane = plan_turn(c) < NO_BEND_IN_PLAN;
    Method { applicable: whole && in_plane, ..found }
}

/// The line as straights and arcs in the direction of the pull, each arc in the plane in which it mostly lies.
fn parts(c: &Context<'_>) -> Vec<PathPart> {
    c.project.line.segments().iter().rev().map(|s| part(c, s)).collect()
}

fn part(c: &Context<'_>, segment: &Segment) -> PathPart {
    let line = &c.project.line;
    let length = segment.md_end() - segment.md_start();
    let (a, b) = (line.sample(segment.md_start().si()), line.sample(segment.md_end().si()));
    let inclination = (a.inclination + b.inclination) * -0.5;
    let angle = Angle::from_si(a.tangent.angle_between(b.tangent));
    if segment.kind() == line::SegmentKind::Straight || angle.si() < 1e-9 {
        return PathPart::Straight { length, inclination };
    }
    let rise = b.inclination - a.inclination;
    let across = (angle.si().powi(2) - rise.si().powi(2)).max(0.0).sqrt();
    let plane = if across > rise.si().abs() {
        BendPlane::Plan
    } else if rise.si() > 0.0 {
        BendPlane::Sag
    } else {
        BendPlane::Over
    };
    PathPart::Arc(Arc { radius: length / angle.si(), angle, mean_inclination: inclination, plane })
}

/// Pull of the string outside the bore with the head at the rig side; `None` where the chain has no value.
fn tail(c: &Context<'_>) -> Option<Force> {
    Some(c.design().as_ref().ok()?.pull.heads.last()?.outside)
}

fn stiff_arcs(c: &Context<'_>) -> Method {
    let p = c.project;
    let pipe = &p.string.pipe;
    let parts = parts(c);
    let tail = tail(c);
    let from = tail.unwrap_or(Force::ZERO);
    let run = |modulus: Pressure, friction: f64, stress: Pressure| {
        let stiff = StiffPipe {
            outside_diameter: pipe.outside_diameter(),
            wall: pipe.wall_nominal(),
            modulus,
            net_weight: c.net_weight,
        };
        let contact = Contact { friction, fluid_stress: stress };
        let after = published::stiff_path(&stiff, &contact, from, &parts)?;
        Ok(after.into_iter().fold(from, Force::max))
    };
    let f = &p.factors;
    let band =
        run(Pressure::ZERO, f.friction_bore_expected, f.fluid_stress_expected).and_then(|low| {
            let high = run(pipe.modulus(), f.friction_bore, f.fluid_stress)?;
            Ok((low, high))
        });
    let outside = match tail {
        Some(_) => "",
        None => ". The string outside the bore is left out, since the chain has no value",
    };
    let remark = format!(
        "low: joints as free hinges, expected friction; high: as if the joints were stiff like the barrel, friction of the checks. Head at the rig side; arcs in profile and plan at once are taken in the plane in which they mostly lie{outside}"
    );
    let found = method("stiff-arcs", &published::STIFF_PIPE, band, remark);
    // Made for welded steel: for hinged joints it is a bound, not a forecast.
    Method { applicable: false, ..found }
}

fn stage_form(c: &Context<'_>) -> Method {
    let p = c.project;
    let stages: Vec<Stage> = parts(c)
        .into_iter()
        .map(|part| match part {
            PathPart::Straight { length, .. } => Stage { length, bend: None },
            PathPart::Arc(arc) => Stage {
                length: arc.radius * arc.angle.si(),
                // Free joints take the curvature: no reaction from bending.
                bend: Some(StageBend { radius: arc.radius, reaction: Force::ZERO }),
            },
        })
        .collect();
    let form = StageForm {
        outside_diameter: p.string.pipe.barrel_diameter(),
        weight_air: c.weight_outside(),
        net_weight: c.net_weight,
        string_length: c.joined.last().map_or(Length::ZERO, |j| j.0),
        friction_rollers: p.string.support_friction,
        fluid_stress: Pressure::pascals(50.0),
        friction_bore: 0.2,
        overall_factor: 1.4,
    };
    let band = published::stage_form(&form, &stages).map(|after| {
        let most = |of: fn(&published::StageForces) -> Force| {
            after.iter().map(of).fold(Force::ZERO, Force::max)
        };
        (most(|s| s.total), most(|s| s.design))
    });
    let found = method(
        "stage-form",
        &published::STAGE_FORM,
        band,
        "friction 0.2 and 50 Pa of the form, free joints; high: with its overall factor of 1.4"
            .to_owned(),
    );
    Method { applicable: p.string.assembly == Assembly::String, ..found }
}

fn quick_rule(c: &Context<'_>) -> Method {
    let (length, d) = (c.project.line.length(), c.project.string.pipe.outside_diameter());
    let band = published::quick_rule(length, d, Ground::Good)
        .and_then(|low| Ok((low, published::quick_rule(length, d, Ground::Difficult)?)));
    let applicable = length.si() + d.to_millimetres() >= 500.0 + QUICK_RULE_FROM;
    let found = method(
        "quick-rule",
        &published::QUICK_RULE,
        band,
        "good to difficult ground; normal ground lies in the middle. Too near its zero for short bores of small pipe"
            .to_owned(),
    );
    Method { applicable, ..found }
}

fn weight_share(c: &Context<'_>) -> Method {
    let p = c.project;
    let band = published::weight_share(p.string.pipe.weight_in_air(), p.line.length())
        .map(|share| (share.low, share.high));
    method(
        "weight-share",
        &published::WEIGHT_SHARE,
        band,
        "40 to 70 % of the string's weight in air".to_owned(),
    )
}

/// Sum of the turns in plan.
fn plan_turn(c: &Context<'_>) -> Angle {
    c.project.line.segments().iter().map(|s| s.plan_turn().abs()).sum()
}

fn mini_rule(c: &Context<'_>) -> Method {
    let p = c.project;
    let remark = "for small rigs (pipe to 300 mm, bores to about 180 m); outside that range it is listed for comparison only and its allowance for steering is too severe"
        .to_owned();
    let Some(rod) = p.bore.rods.diameter else {
        let missing = "no value: the diameter of the rods is not given. ".to_owned() + &remark;
        return Method {
            id: "mini-rule".to_owned(),
            name: published::MINI_RULE.name.to_owned(),
            force: None,
            at: None,
            applicable: false,
            source: published::MINI_RULE.source(),
            remark: missing,
            validity: published::MINI_RULE.validity.to_owned(),
        };
    };
    let rule = MiniRule {
        length: p.line.length(),
        net_weight: c.net_weight.abs(),
        // Bends in profile are in the third already, which stands for 20 deg at both ends.
        planned_bends: plan_turn(c),
        rod_diameter: rod,
    };
    let band = published::mini_rule(&rule).map(|f| (f.force, f.force));
    let applicable = p.string.pipe.outside_diameter().si() <= MINI_RULE_TO.0
        && p.line.length().si() <= MINI_RULE_TO.1;
    Method { applicable, ..method("mini-rule", &published::MINI_RULE, band, remark) }
}
