//! Rules that hold for every worksheet.

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
