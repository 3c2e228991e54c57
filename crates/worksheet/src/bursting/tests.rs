//! What the examples of the sheets do not reach: the other choices, and keys that have no part in them.

use super::SHEETS;
use crate::{Worked, evaluate, find};

fn worked(id: &str, given: &[(&'static str, &'static str)]) -> Worked {
    evaluate(find(id).unwrap(), given).unwrap_or_else(|e| panic!("{id}: {e:?}"))
}

/// A working with the number of its steps whose text gives the value again.
fn recomputes(worked: &Worked) {
    let (difference, symbol) = worked.working.largest_difference().unwrap();
    assert!(difference < 1e-9, "{symbol} differs by {difference:e}");
}

const COMMON: [(&str, &str); 5] = [
    ("unit_weight", "18 kN/m3"),
    ("cover", "1.4 m"),
    ("outside_diameter", "170 mm"),
    ("length", "100 m"),
    ("friction", "0.3"),
];

fn drag(
    model: &'static str,
    more: &[(&'static str, &'static str)],
) -> Vec<(&'static str, &'static str)> {
    [&[("model", model)], &COMMON[..], more].concat()
}

const SILO: &[(&str, &str)] =
    &[("expander_diameter", "260 mm"), ("friction_angle", "30 deg"), ("stress_ratio", "0.5")];

#[test]
fn every_model_of_drag_recomputes_from_its_text() {
    for given in [
        drag("prism", &[]),
        drag("guide", &[]),
        drag("silo", SILO),
        drag("silo", &[SILO, &[("cohesion", "3 kPa"), ("surcharge", "10 kPa")]].concat()),
        drag("silo", &[SILO, &[("wall_friction_angle", "20 deg")]].concat()),
    ] {
        recomputes(&worked("burst-drag", &given));
    }
}

#[test]
fn a_key_without_part_in_the_model_is_refused_by_name() {
    for (model, key, value) in [
        ("prism", "surcharge", "10 kPa"),
        ("guide", "socket_diameter", "239 mm"),
        ("silo", "collapsed_share", "0.25"),
        ("sockets", "friction_angle", "30 deg"),
    ] {
        let errors = evaluate(find("burst-drag").unwrap(), &drag(model, &[(key, value)]));
        let errors = errors.unwrap_err();
        assert_eq!(errors[0].key(), key, "{model}");
        assert!(errors[0].to_string().contains("has no part in model="), "{}", errors[0]);
    }
}

#[test]
fn a_model_names_the_key_that_it_lacks() {
    for (model, key) in [("silo", "friction_angle"), ("sockets", "socket_diameter")] {
        let errors = evaluate(find("burst-drag").unwrap(), &drag(model, &[])).unwrap_err();
        assert_eq!((errors[0].key(), errors[0].code()), (key, "refused"), "{model}");
    }
}

#[test]
fn both_soils_and_both_states_of_a_cavity_recompute_from_their_text() {
    let stiff =
        [("shear_modulus", "5 MPa"), ("radius_before", "75 mm"), ("radius_after", "130 mm")];
    let hardly =
        [("shear_modulus", "5 MPa"), ("radius_before", "75 mm"), ("radius_after", "75.01 mm")];
    for (radii, state) in [(stiff, "plastic"), (hardly, "elastic")] {
        for soil in [
            [("soil", "clay"), ("undrained_strength", "50 kPa"), ("initial_stress", "20 kPa")],
            [("soil", "sand"), ("friction_angle", "35 deg"), ("initial_stress", "15 kPa")],
        ] {
            let cavity = worked("burst-cavity", &[&soil[..], &radii].concat());
            recomputes(&cavity);
            assert_eq!(cavity.word("state"), Some(state));
        }
    }
}

#[test]
fn a_turn_needs_a_friction() {
    let parts =
        [("breaking", "0 kN"), ("cone", "0 kN"), ("drag", "100 kN"), ("restart_factor", "1")];
    let turned = [&parts[..], &[("string_turn", "30 deg")]].concat();
    let errors = evaluate(find("burst-pull").unwrap(), &turned).unwrap_err();
    assert_eq!(errors[0].key(), "friction");
    let rough = worked("burst-pull", &[&turned[..], &[("friction", "0.3")]].concat());
    recomputes(&rough);
}

#[test]
fn sheets_of_this_topic_say_so_in_their_ids() {
    for sheet in SHEETS {
        assert!(sheet.id.starts_with("burst-") || sheet.id == "reaction-wall", "{}", sheet.id);
        assert!(sheet.title.len() <= 57, "{}: {}", sheet.id, sheet.title.len());
    }
}
