use std::f64::consts::PI;

use quantity::{Angle, Force, Length, Pressure, show, unit};
use working::{Evidence, Source};

use crate::data::{TrenchlessRow, data};
use crate::error::{positive, within};
use crate::size::listed;
use crate::{PipeError, Standard, Valued, end_thrust};

/// What a restrained joint may bear. `None` where nobody gave it and no source is fit to stand in.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Joint {
    /// Greatest angle of the joint.
    pub allowable_angle: Option<Valued<Angle>>,
    /// Permitted pull.
    pub permitted_pull: Option<Valued<Force>>,
    /// Allowable operating pressure of the restrained joint.
    pub pfa: Option<Valued<Pressure>>,
    /// Pressure from outside for which the seal was proved.
    pub seal_external_proof: Option<Valued<Pressure>>,
}

const TRENCHLESS_TABLE: &str =
    "ductile iron producers' association page on trenchless methods, restrained joints";
const REMEMBERED_TABLE: &str = "DVGW GW 321 / GW 323 and industry handbook values, not re-read";
const PROJECT_REPORT: &str = "industry association's report on one DN 600 river crossing";

/// Values of a restrained joint to assume until the maker's certificate is there.
///
/// EN 545, DN 80 to 1000: permitted pull of one published table, the lowest of the sets that were
/// seen, the angle of the same row (other makers publish less, down to 3° at DN 80 to 300 and 1.2°
/// at DN 1000: [`angle_sets`]), and the allowable operating pressure of another set, from memory (DN 600: read); its source says so. DN 450 and
/// above DN 1000: the lowest published restrained angle, no pull. AWWA C151 and own data: nothing,
/// since no restrained-joint value was readable; see [`crate::awwa_unrestrained_angle`] for
/// information.
///
/// Never mix rows of different sets in a design: they belong to different joints.
///
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
pub fn joint_defaults(standard: Standard, size: u32) -> Result<Joint, PipeError> {
    match standard {
        Standard::Own => Ok(Joint::default()),
        Standard::AwwaC151 => {
            crate::awwa_unrestrained_angle(size)?;
            Ok(Joint::default())
        }
        Standard::En545 => {
            known(size)?;
            let row = trenchless(size)?;
            Ok(Joint {
                allowable_angle: match row {
                    Some(r) => Some(published_angle(r)),
                    None => lowest_restrained_angle(size)?,
                },
                permitted_pull: row.map(published_pull),
                pfa: row.and_then(restrained_pfa).map(of_another_set),
                seal_external_proof: Some(seal_external_proof()),
            })
        }
    }
}

/// Says that a pressure stands beside the pull and the angle of other joints.
fn of_another_set(pfa: Valued<Pressure>) -> Valued<Pressure> {
    let text = format!("{}; another set than pull and angle", pfa.source.text);
    Valued::new(pfa.value, Source::owned(text, pfa.source.evidence))
}

/// Outside pressure of the type test of a joint in EN 545, 2 bar.
#[must_use]
pub fn seal_external_proof() -> Valued<Pressure> {
    let text = "EN 545 type test of joints, external hydrostatic pressure 2 bar for 2 h";
    Valued::from_text(Pressure::from_si(2.0e5), text, Evidence::FromMemory)
}

fn known(dn: u32) -> Result<f64, PipeError> {
    let d = data()?;
    d.sizes.iter().find(|s| s.dn == dn).map(|s| s.de * 1e-3).ok_or_else(|| PipeError::UnknownSize {
        standard: Standard::En545.name(),
        found: format!("DN {dn}"),
        allowed: listed(d.sizes.iter().map(|s| format!("DN {}", s.dn))),
    })
}

fn trenchless(dn: u32) -> Result<Option<&'static TrenchlessRow>, PipeError> {
    Ok(data()?.trenchless.iter().find(|r| r.dn == dn))
}

fn published_angle(row: &TrenchlessRow) -> Valued<Angle> {
    Valued::from_text(Angle::degrees(row.angle_deg), TRENCHLESS_TABLE, Evidence::Published)
}

fn published_pull(row: &TrenchlessRow) -> Valued<Force> {
    Valued::from_text(Force::kilonewtons(row.pull_kn), TRENCHLESS_TABLE, Evidence::Published)
}

fn restrained_pfa(row: &TrenchlessRow) -> Option<Valued<Pressure>> {
    let bar = Pressure::bar(row.pfa_bar?);
    Some(if row.dn == 600 {
        Valued::from_text(bar, PROJECT_REPORT, Evidence::Published)
    } else {
        Valued::from_text(bar, REMEMBERED_TABLE, Evidence::FromMemory)
    })
}

/// Lowest published angle among one maker's restrained joints of a size, DN 80 to 2000.
///
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
pub fn lowest_restrained_angle(dn: u32) -> Result<Option<Valued<Angle>>, PipeError> {
    known(dn)?;
    let row = data()?.angles.iter().find(|r| r.dn == dn);
    let lowest = row.and_then(|r| r.restrained.iter().flatten().copied().min_by(f64::total_cmp));
    let text = "lowest restrained joint in one manufacturer's published table of angles";
    Ok(lowest.map(|a| Valued::from_text(Angle::degrees(a), text, Evidence::Published)))
}

/// Names of the joints of one maker's table of angles, as [`maker_angles`] returns them: U1 to U3
/// unrestrained (push-on, bolted, two-chamber), L1 to L5 restrained (L1 and L2 gripping or bolted,
/// L3 gripping two-chamber, L4 weld-bead two-chamber, L5 lock of large diameters).
pub const MAKER_JOINTS: [&str; 8] = ["U1", "U2", "U3", "L1", "L2", "L3", "L4", "L5"];

/// One maker's published angles of a size, in the order of [`MAKER_JOINTS`]; `None` where the joint
/// is not made.
///
/// # Source
/// One European manufacturer's published table of allowable joint angles, DN 60 to 2000, read.
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
/// # Checked by
/// `cases/pipe/joint-angles-of-one-maker.toml` (published).
pub fn maker_angles(dn: u32) -> Result<[Option<Angle>; 8], PipeError> {
    let rows = &data()?.angles;
    let row = rows.iter().find(|r| r.dn == dn).ok_or_else(|| PipeError::UnknownSize {
        standard: "the maker's table of joint angles",
        found: format!("DN {dn}"),
        allowed: listed(rows.iter().map(|r| format!("DN {}", r.dn))),
    })?;
    let [u1, u2, u3] = row.unrestrained;
    let [l1, l2, l3, l4, l5] = row.restrained;
    Ok([u1, u2, u3, l1, l2, l3, l4, l5].map(|degrees| degrees.map(Angle::degrees)))
}

/// One statement of the permitted pull of a restrained joint.
#[derive(Debug, Clone, PartialEq)]
pub struct PullSet {
    /// Which set, in words.
    pub name: &'static str,
    /// The force with its source.
    pub pull: Valued<Force>,
}

/// Every statement on the permitted pull of a size that was found, side by side: they disagree, and
/// a reader should see by how much.
///
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
pub fn pull_sets(dn: u32) -> Result<Vec<PullSet>, PipeError> {
    let de = Length::from_si(known(dn)?);
    let Some(row) = trenchless(dn)? else { return Ok(Vec::new()) };
    let mut sets = vec![PullSet { name: "published trenchless table", pull: published_pull(row) }];
    if let Some(kn) = row.remembered_pull_kn {
        let pull =
            Valued::from_text(Force::kilonewtons(kn), REMEMBERED_TABLE, Evidence::FromMemory);
        sets.push(PullSet { name: "GW 321 / GW 323", pull });
    }
    if let Some(pfa) = restrained_pfa(row) {
        let text = format!("end thrust at the restrained joint's PFA ({})", pfa.source);
        // No better founded than the pressure that enters it.
        let evidence = pfa.source.evidence.max(Evidence::Computed);
        let source = Source::owned(text, evidence);
        let pull = Valued::new(end_thrust(pfa.value, de)?, source);
        sets.push(PullSet { name: "end thrust at PFA", pull });
        sets.push(PullSet { name: "1.5 x end thrust", pull: pull_from_pressure(pfa.value, de)? });
    }
    let single = match dn {
        400 => Some((650.0, "limit in one report on a DN 400 bursting job")),
        600 => Some((1525.0, PROJECT_REPORT)),
        _ => None,
    };
    if let Some((kn, text)) = single {
        let pull = Valued::from_text(Force::kilonewtons(kn), text, Evidence::Published);
        sets.push(PullSet { name: "single published job", pull });
    }
    Ok(sets)
}

/// Permitted pull guessed from the restrained joint's allowable operating pressure, `T ≈ 1.5 PFA π
/// DE² / 4`.
///
/// Indicative only: it reproduces the two published values that were seen (DN 600 at 32 bar, 1525
/// kN; DN 400 at 30 bar, 650 kN), which is evidence at the level of coincidence. Never above the
/// joint's proof in the type test.
///
/// # Source
/// Judgement.
/// # Errors
/// [`PipeError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/pipe/pull-from-pressure.toml`.
pub fn pull_from_pressure(
    pfa: Pressure,
    outside_diameter: Length,
) -> Result<Valued<Force>, PipeError> {
    let p = positive("allowable operating pressure", pfa.si(), unit::BAR)?;
    let thrust = end_thrust(Pressure::from_si(p), outside_diameter)?;
    let text = "1.5 x end thrust at PFA: indicative, agrees with two published values";
    Ok(Valued::from_text(1.5 * thrust, text, Evidence::Judgement))
}

/// One statement on the angle of joints of a size.
#[derive(Debug, Clone, PartialEq)]
pub struct AngleSet {
    /// Which set, in words.
    pub name: &'static str,
    /// Whether the joint is restrained.
    pub is_restrained: bool,
    /// The angle with its source.
    pub angle: Valued<Angle>,
}

/// Every statement on joint angles of a size that was found, side by side.
///
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
pub fn angle_sets(dn: u32) -> Result<Vec<AngleSet>, PipeError> {
    known(dn)?;
    let d = data()?;
    let mut sets = Vec::new();
    let mut add = |name, is_restrained, degrees: f64, text, evidence| {
        let angle = Valued::from_text(Angle::degrees(degrees), text, evidence);
        sets.push(AngleSet { name, is_restrained, angle });
    };
    if let Some(r) = trenchless(dn)? {
        let name = "published trenchless table";
        add(name, true, r.angle_deg, TRENCHLESS_TABLE, Evidence::Published);
    }
    if let Some(r) = d.angles.iter().find(|r| r.dn == dn) {
        let text = "one manufacturer's published table of angles";
        let extremes = |list: &[Option<f64>]| {
            let stated = || list.iter().flatten().copied();
            stated().min_by(f64::total_cmp).zip(stated().max_by(f64::total_cmp))
        };
        if let Some((low, high)) = extremes(&r.restrained) {
            add("maker, lowest restrained", true, low, text, Evidence::Published);
            add("maker, highest restrained", true, high, text, Evidence::Published);
        }
        if let Some((low, high)) = extremes(&r.unrestrained) {
            add("maker, lowest unrestrained", false, low, text, Evidence::Published);
            add("maker, highest unrestrained", false, high, text, Evidence::Published);
        }
    }
    if let Some(r) = d.least_angles.iter().find(|r| (r.from..=r.to).contains(&dn)) {
        let text = "EN 545:2010 clause 5, least angle of design";
        add("EN 545 least, restrained", true, r.restrained, text, Evidence::FromMemory);
        add("EN 545 least, unrestrained", false, r.unrestrained, text, Evidence::FromMemory);
    }
    Ok(sets)
}

/// How far the far end of a pipe moves aside when its joint is turned, `a sin δ`.
///
/// # Source
/// Plane geometry; makers print it beside the angle.
/// # Errors
/// [`PipeError::OutOfRange`] for a length that is not positive or an angle outside 0 to 90°.
/// # Checked by
/// `cases/pipe/joint-offset.toml`.
pub fn joint_offset(laying_length: Length, joint_angle: Angle) -> Result<Length, PipeError> {
    let a = positive("laying length", laying_length.si(), unit::M)?;
    let quarter = PI / 2.0;
    let angle = joint_angle.si();
    within("joint angle", angle, unit::DEG, (0.0..=quarter).contains(&angle), || {
        format!("0 to {}", show(quarter, unit::DEG))
    })?;
    Ok(Length::from_si(a * angle.sin()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn degrees(angle: &Option<Valued<Angle>>) -> Option<f64> {
        angle.as_ref().map(|a| (a.value.to_degrees() * 100.0).round() / 100.0)
    }

    #[test]
    fn defaults_to_dn_1000_come_from_one_published_table() {
        let j = joint_defaults(Standard::En545, 400).expect("DN 400");
        assert_eq!(degrees(&j.allowable_angle), Some(3.0));
        let pull = j.permitted_pull.expect("pull");
        assert_eq!((pull.value.to_kilonewtons(), pull.evidence()), (510.0, Evidence::Published));
        let pfa = j.pfa.expect("PFA");
        assert_eq!(pfa.evidence(), Evidence::FromMemory);
        assert!(pfa.source.text.ends_with("; another set than pull and angle"), "{}", pfa.source);
        let j = joint_defaults(Standard::En545, 600).expect("DN 600");
        assert_eq!(j.pfa.expect("PFA").evidence(), Evidence::Published);
    }

    #[test]
    fn sizes_without_a_trenchless_row_get_the_lowest_published_angle_and_no_pull() {
        for (dn, angle) in [(450, 2.0), (1200, 1.1), (1600, 0.9), (2000, 0.8)] {
            let j = joint_defaults(Standard::En545, dn).expect("size");
            assert_eq!(degrees(&j.allowable_angle), Some(angle), "DN {dn}");
            assert!(j.permitted_pull.is_none() && j.pfa.is_none(), "DN {dn}");
        }
    }

    #[test]
    fn the_makers_angles_keep_their_columns() {
        let degrees = |dn| {
            let angles = maker_angles(dn).expect("size");
            angles.map(|a| a.map(|a| (a.to_degrees() * 1e9).round() / 1e9))
        };
        let at = |u: [f64; 3], l: [Option<f64>; 5]| {
            let [u1, u2, u3] = u.map(Some);
            let [l1, l2, l3, l4, l5] = l;
            [u1, u2, u3, l1, l2, l3, l4, l5]
        };
        assert_eq!(degrees(1000), at([4.0, 1.5, 1.2], [None, None, None, Some(1.2), None]));
        assert_eq!(degrees(1600), at([3.0, 2.0, 0.9], [None, None, None, Some(0.9), Some(1.0)]));
        assert_eq!(degrees(60)[2], None);
        assert!(maker_angles(333).expect_err("accepted").to_string().contains("DN 60, DN 80"));
    }

    #[test]
    fn the_lowest_and_highest_of_the_makers_angles_follow_from_its_columns() {
        for row in &data().expect("tables").sizes {
            let angles = maker_angles(row.dn).expect("size");
            let (free, held) = angles.split_at(3);
            for (name, joints) in [("restrained", held), ("unrestrained", free)] {
                let stated = || joints.iter().flatten().map(|a| a.si());
                let low = stated().fold(f64::INFINITY, f64::min);
                let high = stated().fold(0.0, f64::max);
                for (which, expected) in [("lowest", low), ("highest", high)] {
                    let name = format!("maker, {which} {name}");
                    let sets = angle_sets(row.dn).expect("size");
                    let set = sets.iter().find(|s| s.name == name).expect("set");
                    assert!((set.angle.value.si() - expected).abs() < 1e-12, "{name} {}", row.dn);
                }
            }
        }
    }

    #[test]
    fn nothing_is_invented_for_us_and_own_joints() {
        assert_eq!(joint_defaults(Standard::AwwaC151, 12), Ok(Joint::default()));
        assert_eq!(joint_defaults(Standard::Own, 12), Ok(Joint::default()));
        assert!(joint_defaults(Standard::AwwaC151, 13).is_err());
        assert!(joint_defaults(Standard::En545, 333).is_err());
    }

    #[test]
    fn the_default_pull_is_the_lowest_of_the_published_sets() {
        for row in &data().expect("tables").trenchless {
            let sets = pull_sets(row.dn).expect("size");
            let published = sets.iter().filter(|s| s.pull.evidence() == Evidence::Published);
            let lowest = published.map(|s| s.pull.value.si()).fold(f64::INFINITY, f64::min);
            assert!((lowest - row.pull_kn * 1e3).abs() < 1e-6, "DN {}", row.dn);
        }
        assert_eq!(pull_sets(600).expect("DN 600").len(), 5);
    }

    #[test]
    fn the_proxy_never_exceeds_the_proof_of_the_type_test() {
        for bar in [10.0, 16.0, 32.0, 100.0] {
            let (p, d) = (Pressure::bar(bar), Length::millimetres(635.0));
            let proxy = pull_from_pressure(p, d).expect("valid").value;
            assert!(proxy < crate::joint_proof_force(p, d).expect("valid"));
        }
    }
}
