use pull::published::{Ground, QUICK_RULE, WEIGHT_SHARE, quick_rule, weight_share};
use quantity::{ForcePerLength, GRAVITY, Length, unit};

use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

pub(super) static PULL_QUICK: Worksheet = Worksheet {
    id: "pull-quick",
    title: "pull of ductile iron by the quick rule",
    inputs: &[
        Input::quantity("length", "L", "length of the bore", unit::M, Range::Positive),
        Input::quantity(
            "outside_diameter",
            "D",
            "outside diameter of the pipe",
            unit::MM,
            Range::SIZE,
        ),
        Input::choice("ground", "ground conditions", &["good", "normal", "difficult"]),
    ],
    outputs: &[Output::new("force", "pull", unit::KN)],
    source: QUICK_RULE.source(),
    example: &[("length", "486 m"), ("outside_diameter", "738 mm"), ("ground", "normal")],
    run: run_quick,
};

fn run_quick(v: &Values) -> Result<Sheet, Failure> {
    let ground = match v.word("ground") {
        "good" => Ground::Good,
        "difficult" => Ground::Difficult,
        _ => Ground::Normal,
    };
    let diameter = Length::from_si(v.si("outside_diameter"));
    // The rule's sum of metres and millimetres is refused at the length: a longer bore is where the rule begins.
    let force = quick_rule(Length::from_si(v.si("length")), diameter, ground)
        .map_err(|e| Failure::at("length", e))?
        .si();
    let source = || QUICK_RULE.source();
    let mut w = v.open();
    w.given_from("X", "factor of the ground", ground.factor(), unit::ONE, source());
    let formula = "(L + 1000*D - 500)*X*1000";
    w.result(
        "F",
        "pull; metres plus millimetres give kilonewtons",
        formula,
        force,
        unit::KN,
        source(),
    );
    Ok(Sheet::new(&[("force", force)], w))
}

pub(super) static PULL_WEIGHT_SHARE: Worksheet = Worksheet {
    id: "pull-weight-share",
    title: "bracket of the pull from the weight of the string",
    inputs: &[
        Input::quantity(
            "mass_per_length",
            "m",
            "mass of the pipe per length, lined and coated",
            unit::KG_PER_M,
            Range::NotNegative,
        ),
        Input::quantity("length", "L", "length of the string", unit::M, Range::NotNegative),
    ],
    outputs: &[
        Output::new("weight", "weight of the string in air", unit::KN),
        Output::new("force_low", "40 % of the weight", unit::KN),
        Output::new("force_high", "70 % of the weight", unit::KN),
    ],
    source: WEIGHT_SHARE.source(),
    example: &[("mass_per_length", "300 kg/m"), ("length", "500 m")],
    run: run_weight_share,
};

fn run_weight_share(v: &Values) -> Result<Sheet, Failure> {
    let weight = ForcePerLength::from_si(v.si("mass_per_length") * GRAVITY);
    let share = weight_share(weight, Length::from_si(v.si("length")))
        .map_err(|e| refused(&PULL_WEIGHT_SHARE, &e))?;
    let source = || WEIGHT_SHARE.source();
    let (weight, low, high) = (share.weight.si(), share.low.si(), share.high.si());
    let mut w = v.open();
    w.result("G", "weight of the string", "m*9.80665*L", weight, unit::KN, source());
    w.result("F_1", "40 % of the weight", "0.4*G", low, unit::KN, source());
    w.result("F_2", "70 % of the weight", "0.7*G", high, unit::KN, source());
    Ok(Sheet::new(&[("weight", weight), ("force_low", low), ("force_high", high)], w))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::evaluate;

    #[test]
    fn a_bore_too_small_for_the_rule_is_told_the_least_sum_alone() {
        let given = [("length", "80 m"), ("outside_diameter", "326 mm"), ("ground", "normal")];
        let refused = evaluate(&PULL_QUICK, &given).unwrap_err();
        let message = refused[0].to_string();
        assert_eq!(refused[0].key(), "length");
        assert!(message.ends_with("must be at least 500, but was 406"), "{message}");
    }
}
