//! Rules that hold for every worksheet.

use proptest::prelude::*;
use working::Evidence;
use worksheet::{Need, Shape, all, evaluate};

#[test]
fn every_example_runs_and_every_step_recomputes_from_its_text() {
    for sheet in all() {
        let worked =
            evaluate(sheet, sheet.example).unwrap_or_else(|e| panic!("{}: {e:?}", sheet.id));
        let (difference, symbol) =
            worked.working.largest_difference().unwrap_or_else(|e| panic!("{}: {e}", sheet.id));
        assert!(
            difference < 1e-6,
            "{}: step {symbol} differs by {difference:e} from its formula",
            sheet.id
        );
        for output in sheet.outputs {
            assert!(
                worked.number(output.key).is_some() || worked.word(output.key).is_some(),
                "{} returned no {}",
                sheet.id,
                output.key
            );
        }
        assert_eq!(
            worked.outputs.len(),
            sheet.outputs.len(),
            "{}: outputs differ from the definition",
            sheet.id
        );
    }
}

#[test]
fn definitions_are_complete_and_unambiguous() {
    let sheets = all();
    for (i, sheet) in sheets.iter().enumerate() {
        assert!(!sheets[..i].iter().any(|s| s.id == sheet.id), "{} stands twice", sheet.id);
        assert!(
            !sheet.source.text.is_empty() && sheet.source.evidence != Evidence::Given,
            "{}: source",
            sheet.id
        );
        for (k, input) in sheet.inputs.iter().enumerate() {
            assert!(
                !sheet.inputs[..k].iter().any(|o| o.key == input.key),
                "{}: {}",
                sheet.id,
                input.key
            );
            if let Shape::Quantity(..) = input.shape {
                assert!(!input.symbol.is_empty(), "{}: {} has no symbol", sheet.id, input.key);
            }
            if let Need::Default(_, why) = input.need {
                assert_ne!(why.evidence, Evidence::Given, "{}: {}", sheet.id, input.key);
            }
        }
    }
}

#[test]
fn all_errors_of_the_inputs_come_at_once() {
    let sheet = worksheet::find("joint-radius").unwrap();
    let errors = evaluate(sheet, &[("layinglength", "6 m"), ("joint_angle", "3 kN")]).unwrap_err();
    let codes: Vec<_> = errors.iter().map(|e| (e.code(), e.key().to_owned())).collect();
    assert_eq!(
        codes,
        [
            ("unknown_key", "layinglength".to_owned()),
            ("unreadable", "joint_angle".to_owned()),
            ("missing", "laying_length".to_owned())
        ]
    );
    assert!(errors[0].to_string().contains("did you mean \"laying_length\"?"));
    let range =
        evaluate(sheet, &[("laying_length", "0 m"), ("joint_angle", "180 deg")]).unwrap_err();
    assert_eq!(range.len(), 2);
    assert_eq!(range[0].to_string(), "input \"laying_length\" must be greater than 0, but was 0 m");
}

#[test]
fn a_size_of_more_than_ten_metres_is_a_slip() {
    let mut seen = 0;
    for sheet in all() {
        for input in sheet.inputs {
            let Shape::Quantity(unit, range) = input.shape else { continue };
            if unit == quantity::unit::MM {
                seen += 1;
                assert!(range.holds(10.0), "{}: {}", sheet.id, input.key);
                for wrong in [-0.001, 10.001, 400.0] {
                    assert!(!range.holds(wrong), "{}: {} {wrong}", sheet.id, input.key);
                }
            }
            if input.key == "joint_angle" {
                assert!(range.holds(5f64.to_radians()) && !range.holds(3.0), "{}", sheet.id);
            }
        }
    }
    assert!(seen > 20, "{seen}");
}

#[test]
fn a_number_that_lacks_its_unit_is_told_the_unit_it_has() {
    let message = |id: &str, given: &[(&str, &str)]| {
        let errors = evaluate(worksheet::find(id).unwrap(), given).unwrap_err();
        errors.first().map(ToString::to_string).unwrap_or_default()
    };
    assert_eq!(
        message("joint-radius", &[("laying_length", "6"), ("joint_angle", "3")]),
        "input \"joint_angle\" must be greater than 0 and at most 45 deg, but was 3 rad; \
         a bare number is in rad: write 3deg?"
    );
    assert_eq!(
        message("road-cover", &[("diameter", " 400 ")]),
        "input \"diameter\" must be greater than 0 and at most 10000 mm, but was 400 m; \
         a bare number is in m: write 400mm?"
    );
    // A share has no unit whose symbol could be named.
    let text = message("slug", &[("inside_diameter", "0.5"), ("length", "9"), ("fraction", "65")]);
    assert!(text.ends_with("but was 65; a bare number is a fraction: write 65%?"), "{text}");
    // Neither a unit nor a sign would help these.
    for wrong in ["90 deg", "-3", "60"] {
        let text = message("joint-radius", &[("laying_length", "6"), ("joint_angle", wrong)]);
        assert!(text.contains("joint_angle") && !text.contains("bare"), "{text}");
    }
}

#[test]
fn values_that_only_a_slip_of_the_unit_gives_are_out_of_range() {
    let with = |id: &str, key: &str, text: &str| {
        let sheet = worksheet::find(id).unwrap();
        let mut given = sheet.example.to_vec();
        given.retain(|(k, _)| *k != key);
        given.push((key, text));
        evaluate(sheet, &given)
    };
    for (id, key, wrong, right) in [
        ("chlorine", "dose", "25", "1 g/l"),
        ("chlorine-solution", "dose", "1.1", "1 g/l"),
        ("hazen-williams", "coefficient", "1.4", "50"),
        ("hazen-williams", "coefficient", "171", "170"),
        ("wave-speed", "wall", "0.9 mm", "1 mm"),
        ("ring-buckling", "wall_min", "0.4 mm", "0.5 mm"),
        ("ring-stiffness", "wall_min", "0.4 mm", "2 mm"),
        ("ovality", "wall_min", "0.4 mm", "2 mm"),
    ] {
        let errors = with(id, key, wrong).unwrap_err();
        assert_eq!((errors[0].code(), errors[0].key()), ("out_of_range", key), "{id} {wrong}");
        assert!(with(id, key, right).is_ok(), "{id} {right}");
    }
}

#[test]
fn a_range_without_upper_end_names_the_lower_one_only() {
    let sheet = worksheet::find("hydrokinetic").unwrap();
    let given = [("pressure", "70 kPa"), ("hole_diameter", "1 m"), ("outside_diameter", "1058 mm")];
    let text = evaluate(sheet, &given).unwrap_err()[0].to_string();
    assert!(text.starts_with("input \"hole_diameter\": hole diameter must be at"), "{text}");
    assert!(text.ends_with("at least 1058 mm, but was 1000 mm"), "{text}");
}

proptest! {
    // Enough for each of the sheets to be met many times.
    #![proptest_config(ProptestConfig::with_cases(4096))]

    #[test]
    fn any_inputs_are_worked_out_or_refused_and_every_working_recomputes(
        index in 0..all().len(),
        factors in proptest::collection::vec(
            prop_oneof![
                8 => 0.2f64..5.0,
                1 => Just(0.0),
                1 => Just(-1.0),
                1 => prop::num::f64::NORMAL,
            ],
            20,
        ),
    ) {
        let sheet = all()[index];
        let mut given = Vec::new();
        for ((key, text), factor) in sheet.example.iter().zip(&factors) {
            let shape = sheet.inputs.iter().find(|i| i.key == *key).map(|i| i.shape);
            let changed = match shape {
                Some(Shape::Quantity(unit, _)) => {
                    let (si, _) = quantity::parse(text, unit.kind()).unwrap();
                    format!("{:e}", si * factor)
                }
                _ => (*text).to_owned(),
            };
            given.push((*key, changed));
        }
        if let Ok(worked) = evaluate(sheet, &given) {
            for output in sheet.outputs {
                let finite = worked.number(output.key).is_some_and(f64::is_finite);
                prop_assert!(finite || worked.word(output.key).is_some(), "{}", output.key);
            }
            let finite = worked.working.steps.iter().all(|s| s.value.is_finite());
            prop_assert!(finite, "{}: {given:?}", sheet.id);
            // Numbers near the ends of what a double holds need not recompute: products
            // overflow by their order.
            let ordinary = factors.iter().all(|f| *f == 0.0 || (0.1..10.0).contains(&f.abs()));
            let (difference, symbol) = worked.working.largest_difference().unwrap();
            prop_assert!(
                difference < 1e-6 || !ordinary,
                "{} {symbol} {difference}: {given:?}", sheet.id
            );
        }
    }
}
