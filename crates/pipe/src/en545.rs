use quantity::{Density, Length, Mass, Pressure};
use working::{Evidence, Source};

use crate::data::{SizeRow, data};
use crate::size::listed;
use crate::socket::{restrained_socket_diameter, restrained_socket_mass};
use crate::{
    CoatingKind, Layer, Nominal, Pipe, PipeData, PipeError, Standard, Valued, coating,
    wall_for_pressure,
};

/// Density of ductile iron, kg/m³; read in a foundry's summary of the standard, reproduces
/// published masses.
pub const IRON_DENSITY: Density = Density::from_si(7050.0);

/// Modulus of elasticity of ductile iron in EN 545; from memory.
pub const EN545_MODULUS: Pressure = Pressure::from_si(170.0e9);

/// Pressure classes of EN 545:2010.
pub(crate) const PRESSURE_CLASSES: [u32; 6] = [25, 30, 40, 50, 64, 100];

/// Least wall that is cast, mm: the floor of class C40 in the published table, taken for every cell
/// outside it.
const CASTING_FLOOR: f64 = 3.0;

/// Nominal wall, least wall, and the pressure that the class stands for.
type Walls = (Valued<Length>, Valued<Length>, Option<Valued<Pressure>>);

/// A pipe of EN 545 / ISO 2531 with a restrained two-chamber socket.
///
/// `class` is `K9` or any K from 5 to 20, or a pressure class `C25`, `C30`, `C40`, `C50`, `C64`,
/// `C100`.
///
/// - K classes: `e = max(6.0; K (0.5 + 0.001 DN))` mm rounded to 0.1 mm, least wall 1.3 mm less for
///   e ≤ 6.0, else `1.3 + 0.001 DN` less.
/// - Pressure classes: the standard's table of least walls where it was read, else
///   [`wall_for_pressure`] rounded to 0.1 mm, at least 3.0 mm, marked computed. Nominal walls not
///   published are `e_min + 1.3 + 0.001 DN`.
/// - Laying length 6 m, lining of the standard's nominal thickness, no coating, 25 mm for sleeve
///   and cone. All of these are sources' or assumed values in [`PipeData`]: replace them by the
///   maker's data sheet where there is one.
///
/// # Errors
/// [`PipeError::UnknownSize`] and [`PipeError::UnknownClass`] list what there is.
///
/// # Checked by
/// `cases/pipe/en545-class-table.toml`, `cases/pipe/en545-k9-walls.toml`.
pub fn en545_pipe(dn: u32, class: &str) -> Result<Pipe, PipeError> {
    let d = data()?;
    let size = d.sizes.iter().find(|s| s.dn == dn).ok_or_else(|| PipeError::UnknownSize {
        standard: Standard::En545.name(),
        found: format!("DN {dn}"),
        allowed: listed(d.sizes.iter().map(|s| format!("DN {}", s.dn))),
    })?;
    let unknown = || PipeError::UnknownClass {
        standard: Standard::En545.name(),
        size: format!("DN {dn}"),
        found: class.to_owned(),
        allowed: format!("K5 to K20, {}", listed(PRESSURE_CLASSES.iter().map(|c| format!("C{c}")))),
    };
    let written = class.trim().to_ascii_uppercase();
    let number = written.get(1..).and_then(|t| t.parse::<u32>().ok()).ok_or_else(unknown)?;
    let (wall_nominal, wall_min, class_pressure) = match written.get(..1) {
        Some("K") if (5..=20).contains(&number) => k_walls(size, number),
        Some("C") if PRESSURE_CLASSES.contains(&number) => class_walls(size, number)?,
        _ => return Err(unknown()),
    };
    let outside_diameter = outside_diameter(size);
    let socket = socket_diameter(size)?;
    Pipe::new(PipeData {
        standard: Standard::En545,
        nominal: Nominal::Dn(dn),
        class: written,
        wall_nominal,
        wall_min,
        lining: lining(size),
        coating: coating(CoatingKind::ZincAndFinish),
        laying_length: Valued::from_text(
            Length::from_si(6.0),
            "usual laying length of EN 545; lengths of 5 to 8.15 m exist",
            Evidence::FromMemory,
        ),
        socket_mass: socket_mass(outside_diameter.value)?,
        socket_outside_diameter: Some(socket),
        outside_diameter,
        joint_protection: joint_protection(),
        modulus: Valued::from_text(EN545_MODULUS, "EN 545 handbooks", Evidence::FromMemory),
        iron_density: Valued::from_text(
            IRON_DENSITY,
            "a foundry's summary of EN 545; reproduces published masses",
            Evidence::Published,
        ),
        proof_strength: proof_strength(),
        stated_mass: None,
        class_pressure,
    })
}

/// Preferred pressure class of EN 545:2010: C40 to DN 300, C30 to DN 600, C25 above.
///
/// # Source
/// EN 545:2010 leaflet, read.
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
pub fn preferred_class(dn: u32) -> Result<&'static str, PipeError> {
    let d = data()?;
    if !d.sizes.iter().any(|s| s.dn == dn) {
        return Err(PipeError::UnknownSize {
            standard: Standard::En545.name(),
            found: format!("DN {dn}"),
            allowed: listed(d.sizes.iter().map(|s| format!("DN {}", s.dn))),
        });
    }
    Ok(match dn {
        0..=300 => "C40",
        301..=600 => "C30",
        _ => "C25",
    })
}

/// Sleeve and cone on the socket, on the diameter.
pub(crate) fn joint_protection() -> Valued<Length> {
    Valued::from_text(
        Length::from_si(0.025),
        "sleeve and cone: upper end of an allowance of 10-25 mm on the diameter",
        Evidence::Judgement,
    )
}

fn outside_diameter(size: &SizeRow) -> Valued<Length> {
    let (text, evidence) = if size.dn <= 1000 {
        ("EN 545:2010, outside diameters", Evidence::Published)
    } else {
        ("EN 545 / ISO 2531, outside diameters above DN 1000", Evidence::FromMemory)
    };
    Valued::from_text(Length::millimetres(size.de), text, evidence)
}

fn lining(size: &SizeRow) -> Valued<Layer> {
    Valued::from_text(
        Layer { thickness: Length::millimetres(size.lining), density: Density::from_si(2400.0) },
        "cement mortar: nominal thickness read on a page quoting EN 545, 2400 kg/m3 from memory",
        Evidence::FromMemory,
    )
}

fn socket_diameter(size: &SizeRow) -> Result<Valued<Length>, PipeError> {
    if size.dn == 600 {
        return Ok(Valued::from_text(
            Length::millimetres(742.0),
            "joint diameter in an industry association's report on one DN 600 river crossing",
            Evidence::Published,
        ));
    }
    restrained_socket_diameter(Length::millimetres(size.de))
}

fn socket_mass(outside_diameter: Length) -> Result<Valued<Mass>, PipeError> {
    restrained_socket_mass(outside_diameter)
}

fn proof_strength() -> Valued<Pressure> {
    Valued::from_text(
        Pressure::from_si(270.0e6),
        "EN 545 table 5: 270 MPa (elongation 12 % to DN 1000, 10 % above), else 300; lower taken",
        Evidence::FromMemory,
    )
}

/// Nominal and least wall of a K class in micrometres, `max(6.0; K (0.5 + 0.001 DN))` mm and its
/// tolerance.
fn k_formula(dn: u32, k: u32) -> (u32, u32) {
    // K (500 + DN) is exact in micrometres, and half a tenth rounds up as in the published table.
    let nominal = ((k * (500 + dn) + 50) / 100 * 100).max(6000);
    let tolerance = if nominal <= 6000 { 1300 } else { 1300 + dn };
    (nominal, nominal - tolerance)
}

fn k_walls(size: &SizeRow, k: u32) -> Walls {
    let table = k == 9 && size.dn <= 1000;
    let (nominal, min) = if table {
        (Length::millimetres(size.k9_nominal), Length::millimetres(size.k9_min))
    } else {
        let (nominal, min) = k_formula(size.dn, k);
        (Length::from_si(f64::from(nominal) / 1e6), Length::from_si(f64::from(min) / 1e6))
    };
    let (text, evidence) = if table {
        ("EN 545, K9: max(6.0; 9 (0.5 + 0.001 DN)) mm, published table", Evidence::Published)
    } else {
        ("EN 545 / ISO 2531, K class: max(6.0; K (0.5 + 0.001 DN)) mm", Evidence::Computed)
    };
    let least = "EN 545, tolerance of the wall: 1.3 mm, or 1.3 + 0.001 DN above 6.0 mm";
    // The tolerance was read; the least wall itself follows from it.
    let min = Valued::from_text(min, least, Evidence::Computed);
    (Valued::from_text(nominal, text, evidence), min, None)
}

fn class_walls(size: &SizeRow, class: u32) -> Result<Walls, PipeError> {
    let label = format!("C{class}");
    let cell = data()?.classes.iter().find(|r| r.dn == size.dn && r.class == label);
    let min = match cell.and_then(|c| c.e_min) {
        Some(mm) => Valued::from_text(
            Length::millimetres(mm),
            "EN 545:2010, table of minimum walls",
            Evidence::Published,
        ),
        None => {
            let formula =
                wall_for_pressure(Length::millimetres(size.de), Pressure::bar(f64::from(class)))?;
            let mm = ((formula.to_millimetres() * 10.0).round() / 10.0).max(CASTING_FLOOR);
            let text = "pressure formula of EN 545, to 0.1 mm, at least 3.0 mm; cell not read";
            // Above DN 1000 the diameter that enters the formula is itself remembered.
            let evidence = if size.dn > 1000 { Evidence::FromMemory } else { Evidence::Computed };
            Valued::from_text(Length::millimetres(mm), text, evidence)
        }
    };
    let nominal = match cell.and_then(|c| c.e_nom.map(|e| (e, c.e_nom_published))) {
        Some((mm, true)) => Valued::from_text(
            Length::millimetres(mm),
            "nominal wall of the preferred class, published dimension page",
            Evidence::Published,
        ),
        Some((mm, false)) => computed_nominal(mm),
        None => {
            let mm = min.value.to_millimetres() + 1.3 + 0.001 * f64::from(size.dn);
            computed_nominal((mm * 10.0 + 1e-6).round() / 10.0)
        }
    };
    let pressure = Valued::from_text(
        Pressure::bar(f64::from(class)),
        "EN 545:2010: the class is the PFA in bar, with an unrestrained joint",
        Evidence::Published,
    );
    Ok((nominal, min, Some(pressure)))
}

fn computed_nominal(millimetres: f64) -> Valued<Length> {
    let source =
        Source::new("minimum wall + 1.3 mm + 0.001 DN, rounded to 0.1 mm", Evidence::Computed);
    Valued::new(Length::millimetres(millimetres), source)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_k_formula_reproduces_the_table_of_k9_walls() {
        for size in &data().expect("tables").sizes {
            let (nominal, min) = k_formula(size.dn, 9);
            let differs = |um: u32, mm: f64| (f64::from(um) / 1e3 - mm).abs() > 1e-9;
            assert!(!differs(nominal, size.k9_nominal), "DN {}: nominal {nominal}", size.dn);
            assert!(!differs(min, size.k9_min), "DN {}: min {min}", size.dn);
        }
    }

    #[test]
    fn every_size_is_a_valid_pipe_in_every_class() {
        for size in &data().expect("tables").sizes {
            for class in (5..=20).map(|k| format!("K{k}")) {
                en545_pipe(size.dn, &class)
                    .unwrap_or_else(|e| panic!("DN {} {class}: {e}", size.dn));
            }
            let mut last = 0.0;
            for class in PRESSURE_CLASSES {
                let pipe = en545_pipe(size.dn, &format!("C{class}")).expect("valid");
                assert!(pipe.wall_min().si() >= last, "DN {} C{class} is thinner", size.dn);
                last = pipe.wall_min().si();
            }
        }
    }

    #[test]
    fn cells_outside_the_table_are_computed_and_say_so() {
        let read = en545_pipe(1000, "C25").expect("valid");
        assert_eq!(read.data().wall_min.evidence(), Evidence::Published);
        // The diameter of DN 1200 is remembered, and so is what follows from it.
        let made = en545_pipe(1200, "c25").expect("valid");
        assert_eq!(made.data().wall_min.evidence(), Evidence::FromMemory);
        assert!((made.wall_min().to_millimetres() - 11.1).abs() < 1e-9);
        assert!((made.wall_nominal().to_millimetres() - 13.6).abs() < 1e-9);
        assert_eq!(made.class(), "C25");
        let small = en545_pipe(80, "C25").expect("valid");
        assert_eq!(small.data().wall_min.evidence(), Evidence::Computed);
        assert!((small.wall_min().to_millimetres() - 3.0).abs() < 1e-9);
    }

    #[test]
    fn unknown_sizes_and_classes_name_the_allowed_ones() {
        let e = en545_pipe(375, "K9").expect_err("accepted").to_string();
        assert!(e.starts_with("EN 545 has no size DN 375; allowed: DN 80, DN 100"), "{e}");
        for class in ["", "K", "K4", "K21", "C45", "X9", "K-9", "9", "Ké9", "ééé"] {
            let e = en545_pipe(400, class).expect_err(class).to_string();
            assert!(e.contains("allowed: K5 to K20, C25, C30, C40, C50, C64, C100"), "{e}");
        }
    }

    #[test]
    fn preferred_classes_follow_the_size() {
        let found = [80, 300, 350, 600, 700, 2000].map(preferred_class);
        assert_eq!(found, ["C40", "C40", "C30", "C30", "C25", "C25"].map(Ok));
        assert!(preferred_class(333).is_err());
    }
}
