//! Data of joints, as the tables of the pipes hold them.

use pipe::{
    MAKER_JOINTS, Standard, angle_sets, en545_pipe, joint_defaults, maker_angles,
    pressure_of_thrust, pull_sets,
};
use quantity::Kind;
use toml::Table;

use super::arguments::Arguments;
use super::method::{Answer, MethodFailure, Value};
use super::pipe_data::{refused, whole};

/// What the tables state on the restrained joint of one size of EN 545.
///
/// Input: `dn`. Outputs, where they are known: `permitted_pull`, `allowable_angle` and `pfa` that a project starts from;
/// `pull_as_pressure`, the pull over the area of the outside diameter; every other set of the tables by its name as
/// `pull: NAME` and `angle: NAME`.
pub(super) fn joint(given: &Table) -> Result<Answer, Vec<MethodFailure>> {
    let mut arguments = Arguments::new(given);
    let dn = whole("dn", &arguments.word("dn"), &mut arguments);
    arguments.finish()?;
    let failed = |e: pipe::PipeError| vec![refused(&e)];
    let joint = joint_defaults(Standard::En545, dn).map_err(failed)?;
    let mut answer = Vec::new();
    let mut add = |key: String, si, kind| answer.push((key, Value::Number(si, kind)));
    if let Some(pull) = &joint.permitted_pull {
        let de = en545_pipe(dn, "K9").map_err(failed)?.outside_diameter();
        let pressure = pressure_of_thrust(pull.value, de).map_err(failed)?;
        add("permitted_pull".to_owned(), pull.value.si(), Kind::Force);
        add("pull_as_pressure".to_owned(), pressure.si(), Kind::Pressure);
    }
    if let Some(angle) = &joint.allowable_angle {
        add("allowable_angle".to_owned(), angle.value.si(), Kind::Angle);
    }
    if let Some(pfa) = &joint.pfa {
        add("pfa".to_owned(), pfa.value.si(), Kind::Pressure);
    }
    for set in pull_sets(dn).map_err(failed)? {
        add(format!("pull: {}", set.name), set.pull.value.si(), Kind::Force);
    }
    for set in angle_sets(dn).map_err(failed)? {
        add(format!("angle: {}", set.name), set.angle.value.si(), Kind::Angle);
    }
    Ok(answer)
}

/// One maker's published angles of one size.
///
/// Input: `dn`. Outputs: `U1` to `U3` unrestrained, `L1` to `L5` restrained; the word `none` where the joint is not made.
pub(super) fn angles(given: &Table) -> Result<Answer, Vec<MethodFailure>> {
    let mut arguments = Arguments::new(given);
    let dn = whole("dn", &arguments.word("dn"), &mut arguments);
    arguments.finish()?;
    let angles = maker_angles(dn).map_err(|e| vec![refused(&e)])?;
    let value = |angle: Option<quantity::Angle>| match angle {
        Some(angle) => Value::Number(angle.si(), Kind::Angle),
        None => Value::Word("none".to_owned()),
    };
    let names = MAKER_JOINTS.iter().map(|name| (*name).to_owned());
    Ok(names.zip(angles.map(value)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn codes(run: fn(&Table) -> Result<Answer, Vec<MethodFailure>>, text: &str) -> Vec<String> {
        let failures = run(&toml::from_str(text).unwrap()).unwrap_err();
        failures.into_iter().map(|f| f.code).collect()
    }

    #[test]
    fn unknown_sizes_and_keys_are_refused() {
        assert_eq!(codes(joint, "dn = 601"), ["unknown_size"]);
        assert_eq!(codes(angles, "dn = 601"), ["unknown_size"]);
        assert_eq!(codes(joint, "dn = 600\nsize = 1"), ["unknown_key"]);
        assert_eq!(codes(angles, "dn = \"wide\""), ["unreadable"]);
    }

    #[test]
    fn a_joint_that_is_not_made_has_no_angle() {
        let answer = angles(&toml::from_str("dn = 60").unwrap()).unwrap();
        let of = |key: &str| answer.iter().find(|(k, _)| k == key).unwrap().1.clone();
        assert_eq!(of("U3"), Value::Word("none".to_owned()));
        assert!(matches!(of("U1"), Value::Number(a, Kind::Angle) if a > 0.08 && a < 0.09));
    }
}
