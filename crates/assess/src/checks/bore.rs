//! The bore diameter against the largest outside diameter of the string.

use quantity::{Length, unit};
use working::{Evidence, Source};

use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::item::{About, Item};

const RULE: Source = Source::new("ratio to the largest outside diameter", Evidence::CommonPractice);

/// One published or remembered rule on the final bore diameter.
struct Rule {
    words: &'static str,
    diameter: fn(Length, Length) -> Length,
    source: Source,
}

/// Rules that contradict each other; the first one with the ratio of the file is the check.
const RULES: [Rule; 4] = [
    Rule {
        words: "about 1.5 times the largest outside diameter, the socket",
        diameter: |largest, _| largest * 1.5,
        source: Source::new(
            "Bonds, directional drilling with ductile iron pipe (industry association paper)",
            Evidence::Published,
        ),
    },
    Rule {
        words: "largest diameter + 100 mm below 200 mm, × 1.5 up to 600 mm, + 300 mm above",
        diameter: |largest, _| {
            if largest.to_millimetres() < 200.0 {
                largest + Length::millimetres(100.0)
            } else if largest.to_millimetres() <= 600.0 {
                largest * 1.5
            } else {
                largest + Length::millimetres(300.0)
            }
        },
        source: Source::new("good-practice guideline, thresholds", Evidence::FromMemory),
    },
    Rule {
        words: "socket, twice the mid-barrel offset in the tightest curve, and 50 mm all round",
        diameter: |largest, offset| largest + offset * 2.0 + Length::millimetres(100.0),
        source: Source::new("room for barrel and cuttings", Evidence::Judgement),
    },
    Rule {
        words: "not larger than 1.5 times the largest outside diameter (an upper bound)",
        diameter: |largest, _| largest * 1.5,
        source: Source::new("a city's 2011 water main specification", Evidence::Published),
    },
];

/// Final bore diameter.
pub(super) fn diameter(c: &Context<'_>) -> Item {
    let p = c.project;
    let bore = p.bore.final_diameter;
    let about = About::new(
        "bore.diameter",
        "final bore against the largest outside diameter",
        Stage::Ream,
        p.source_of("/factors/bore_ratio"),
    );
    let mm = |l: Length| Reading::new(l.si(), unit::MM);
    let Some(largest) = c.largest_diameter else {
        return about
            .not_assessed(
                &["/string/socket_diameter"],
                "the largest outside diameter of the string is not known",
            )
            .acting(mm(bore));
    };
    let ratio = p.factors.bore_ratio;
    let needed = largest * ratio;
    let because = format!(
        "the largest outside diameter is {} (socket with protection, not the barrel); {} times that is {}",
        millimetres(largest),
        quantity::significant(ratio, 4),
        millimetres(needed)
    );
    let mut item = about
        .rule()
        .at_least(mm(bore), mm(needed), p.factors.attention, because)
        .worked(c.working(|w| {
            let data = p.string.pipe.data();
            if let Some(socket) = &data.socket_outside_diameter {
                w.given_from(
                    "D_socket",
                    "socket",
                    socket.value.si(),
                    unit::MM,
                    socket.source.clone(),
                );
                w.given_from(
                    "D_prot",
                    "sleeve and cone, added to the diameter",
                    data.joint_protection.value.si(),
                    unit::MM,
                    data.joint_protection.source.clone(),
                );
                w.result(
                    "D_max",
                    "largest outside diameter",
                    "D_socket + D_prot",
                    largest.si(),
                    unit::MM,
                    Source::new("sum of socket and protection", Evidence::Derived),
                );
            } else {
                w.given("D_max", "largest outside diameter", largest.si(), unit::MM);
            }
            w.given_from("f", "ratio", ratio, unit::ONE, p.source_of("/factors/bore_ratio"));
            w.result(
                "D_req",
                "bore that the rule asks for",
                "f*D_max",
                needed.si(),
                unit::MM,
                RULE,
            );
            w.given_from(
                "D_b",
                "final bore",
                bore.si(),
                unit::MM,
                p.source_of("/bore/final_diameter"),
            );
            w.derive("U", "utilisation", "D_req/D_b", unit::ONE, RULE);
        }));
    let offset = c.radius_over_a_pipe().map_or(Length::ZERO, |(r, _)| {
        let a = p.string.pipe.laying_length().si();
        Length::from_si(a * a / (8.0 * r.si()))
    });
    for rule in &RULES {
        let asked = (rule.diameter)(largest, offset);
        item = item.note(format!(
            "Rule: {}: {}; this bore is {}. {}",
            rule.words,
            millimetres(asked),
            millimetres(bore),
            rule.source
        ));
    }
    if let Some(steps) = passes(c) {
        item = item.note(steps);
    }
    item.note("The rules contradict each other: a lower bound of one is an upper bound of another. The owner's specification decides.")
}

/// The passes in words: by how much each one widens the bore.
fn passes(c: &Context<'_>) -> Option<String> {
    let bore = &c.project.bore;
    let diameters: Vec<Length> =
        bore.pilot_diameter.into_iter().chain(bore.ream_diameters.iter().copied()).collect();
    let steps: Vec<String> =
        diameters.windows(2).map(|pair| format!("+{}", millimetres(pair[1] - pair[0]))).collect();
    (!steps.is_empty()).then(|| {
        format!(
            "Passes from {}: {}. Steps of 150 to 300 mm are usual in soil (from memory, to be confirmed).",
            millimetres(diameters[0]),
            steps.join(", ")
        )
    })
}

fn millimetres(length: Length) -> String {
    quantity::show_briefly(length.si(), unit::MM)
}
