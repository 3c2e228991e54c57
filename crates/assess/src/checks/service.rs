//! Pressures of the finished main against pipe and joint.

use pipe::Rating;
use project::{ServicePressures, StringDesign};
use quantity::{GRAVITY, Length, Pressure, unit};
use working::{Builder, Evidence, Source};

use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::item::{About, Item};
use crate::quoted::{from_line, gravity, water_density};

const RULE: Source = Source::new(
    "PFA ≥ operating, PMA ≥ maximum design, PEA ≥ test pressure, of every component: EN 545 / EN 805 as quoted by a maker's page",
    Evidence::Published,
);

/// One of the three pressures with its rating.
struct Pair {
    name: &'static str,
    symbol: &'static str,
    pressure: Option<Pressure>,
    rating: fn(&Rating) -> Pressure,
    rated: &'static str,
}

/// What the check of the finished main's pressures needs.
pub(crate) struct PressureCase<'a> {
    pub string: &'a StringDesign,
    pub service: &'a ServicePressures,
    /// Lowest level of the axis.
    pub lowest: Length,
    pub attention: f64,
    /// Where the reference level comes from.
    pub reference_source: Source,
    pub explaining: bool,
}

/// Operating, maximum design and test pressure at the lowest place of a crossing.
pub(super) fn pressure(c: &Context<'_>) -> Item {
    let p = c.project;
    pressure_of(&PressureCase {
        string: &p.string,
        service: &p.service,
        lowest: p.line.lowest().level,
        attention: p.factors.attention,
        reference_source: p.source_of("/service/reference_level"),
        explaining: c.explaining(),
    })
}

/// Operating, maximum design and test pressure at the lowest place.
pub(crate) fn pressure_of(p: &PressureCase<'_>) -> Item {
    let s = p.service;
    let about = || {
        About::new("service.pressure", "pressure class of pipe and joint", Stage::InService, RULE)
    };
    let pairs = [
        Pair {
            name: "operating",
            symbol: "OP",
            pressure: s.operating,
            rating: |r| r.pfa,
            rated: "PFA",
        },
        Pair {
            name: "maximum design",
            symbol: "MDP",
            pressure: s.maximum_design,
            rating: |r| r.pma,
            rated: "PMA",
        },
        Pair { name: "test", symbol: "STP", pressure: s.test, rating: |r| r.pea, rated: "PEA" },
    ];
    if pairs.iter().all(|p| p.pressure.is_none()) {
        return about().not_assessed(
            &[
                "/service/operating_pressure",
                "/service/maximum_design_pressure",
                "/service/test_pressure",
            ],
            "no pressure of the finished main is given",
        );
    }
    let Some(joint) = &p.string.joint.pfa else {
        return about().not_assessed(
            &["/string/joint/pressure"],
            "the allowable pressure of the restrained joint is not known, and it is often lower than the pipe's",
        );
    };
    let pipe = match p.string.pipe.rating() {
        Ok(rating) => rating,
        Err(e) => return about().not_assessed(&[], e.to_string()),
    };
    let low = p.lowest.min(s.reference_level);
    let head = Pressure::from_si(1000.0 * GRAVITY * (s.reference_level - low).si().max(0.0));
    let joint_rating = Rating::en545(joint.value, joint.source.clone());
    let worst = pairs
        .iter()
        .filter_map(|pair| {
            let acting = pair.pressure? + head;
            Some((pair, acting, (pair.rating)(&pipe).min((pair.rating)(&joint_rating))))
        })
        .reduce(|a, b| if b.1 / b.2 > a.1 / a.2 { b } else { a });
    let Some((pair, acting, limit)) = worst else {
        return about().not_assessed(&[], "no pressure of the finished main is given");
    };
    let who = if (pair.rating)(&joint_rating) < (pair.rating)(&pipe) { "joint" } else { "pipe" };
    let because = format!(
        "the {} pressure is tightest: {} at the lowest place (with {} of water above it) against the {} of the {who}; pipe PFA {}, joint PFA {}",
        pair.name,
        bar(acting),
        bar(head),
        pair.rated,
        bar(pipe.pfa),
        bar(joint.value)
    );
    let reading = |q: Pressure| Reading::new(q.si(), unit::BAR);
    about()
        .at_most(reading(acting), reading(limit), p.attention, because)
        .worked(p.explaining.then(|| {
            let mut builder = Builder::new();
            let w = &mut builder;
            w.given_from("z_0", "level at which the pressures hold", s.reference_level.si(), unit::M, p.reference_source.clone());
            from_line(w, "z", "lowest level of the axis", low.si(), unit::M);
            water_density(w);
            gravity(w);
            w.result("p_h", "head of water at the lowest place", "rho_w*g*max(z_0 - z, 0)", head.si(), unit::BAR, Source::new("hydrostatics", Evidence::Derived));
            w.given_from("PFA_pipe", "allowable operating pressure of the pipe", pipe.pfa.si(), unit::BAR, pipe.source.clone());
            w.given_from("PFA_joint", "allowable operating pressure of the restrained joint", joint.value.si(), unit::BAR, joint.source.clone());
            let lower = "the lower of pipe and joint";
            w.derive("PFA", lower, "min(PFA_pipe, PFA_joint)", unit::BAR, RULE);
            for (symbol, meaning, rating) in [
                ("PMA", "with surge", (|r| r.pma) as fn(&Rating) -> Pressure),
                ("PEA", "for the site test", |r| r.pea),
            ] {
                rated(w, &format!("{symbol}_pipe"), meaning, rating(&pipe), &pipe);
                rated(w, &format!("{symbol}_joint"), meaning, rating(&joint_rating), &joint_rating);
                let both = format!("min({symbol}_pipe, {symbol}_joint)");
                w.derive(symbol, lower, &both, unit::BAR, RULE);
            }
            for pair in &pairs {
                if let Some(pressure) = pair.pressure {
                    w.given(pair.symbol, pair.name, pressure.si(), unit::BAR);
                    w.derive(
                        &format!("U_{}", pair.symbol),
                        "utilisation",
                        &format!("({} + p_h)/{}", pair.symbol, pair.rated),
                        unit::ONE,
                        RULE,
                    );
                }
            }
            builder.finish()
        }))
        .note("Fittings, valves and flanges at both ends have ratings of their own; a PN 10 flange has a PEA of 17 bar.")
}

/// A rating by the rule of EN 545 where it follows it, else as its standard gives it.
fn rated(w: &mut Builder, symbol: &str, meaning: &str, value: Pressure, of: &Rating) {
    let by_rule = Rating::en545(of.pfa, of.source.clone());
    let component = if symbol.ends_with("pipe") { "PFA_pipe" } else { "PFA_joint" };
    let (rule, expected) = if symbol.starts_with("PMA") {
        (format!("1.2*{component}"), by_rule.pma)
    } else {
        (format!("1.2*{component} + 5e5"), by_rule.pea)
    };
    if (value - expected).abs().si() <= 1e-6 * expected.si() {
        w.result(symbol, meaning, &rule, value.si(), unit::BAR, RULE);
    } else {
        w.given_from(symbol, meaning, value.si(), unit::BAR, of.source.clone());
    }
}

fn bar(p: Pressure) -> String {
    quantity::show(p.si(), unit::BAR)
}
