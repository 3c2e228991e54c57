use quantity::{Angle, Density, Length, Pressure};
use working::Evidence;

use crate::data::{AwwaRow, Data, data};
use crate::en545::joint_protection;
use crate::size::listed;
use crate::socket::{restrained_socket_diameter, restrained_socket_mass};
use crate::{
    CoatingKind, IRON_DENSITY, Layer, Nominal, Pipe, PipeData, PipeError, Standard, Valued, coating,
};

/// Modulus of elasticity of AWWA C150, 24·10⁶ psi; read, and confirmed by recomputing the published
/// cover table.
pub const AWWA_MODULUS: Pressure = Pressure::from_si(24.0e6 * 6_894.757_293_168);

/// A pipe of AWWA C151 by size in inches and pressure class in psi.
///
/// Least wall: nominal less the casting tolerance. Laying length 20 ft, cement lining of C104
/// thickness, no coating. The socket is that of European restrained pipe by its outside diameter
/// ([`restrained_socket_diameter`]), since no restrained bell was readable: take the maker's figure.
/// It is larger than the published unrestrained bell, [`awwa_unrestrained_bell`].
///
/// # Errors
/// [`PipeError::UnknownSize`] and [`PipeError::UnknownClass`] list what there is.
///
/// # Checked by
/// `cases/pipe/awwa-c151-walls.toml`.
pub fn awwa_pipe(size_in: u32, pressure_class_psi: u32) -> Result<Pipe, PipeError> {
    let d = data()?;
    let rows: Vec<&AwwaRow> = d.awwa.iter().filter(|r| r.size == size_in).collect();
    if rows.is_empty() {
        return Err(unknown_size(d, size_in));
    }
    let row = rows.iter().find(|r| r.class_psi == pressure_class_psi).ok_or_else(|| {
        PipeError::UnknownClass {
            standard: Standard::AwwaC151.name(),
            size: format!("{size_in} in"),
            found: format!("{pressure_class_psi} psi"),
            allowed: listed(rows.iter().map(|r| format!("{} psi", r.class_psi))),
        }
    })?;
    let outside = Length::inches(row.od);
    Pipe::new(PipeData {
        standard: Standard::AwwaC151,
        nominal: Nominal::Inches(size_in),
        class: format!("{pressure_class_psi} psi"),
        outside_diameter: Valued::from_text(
            outside,
            "AWWA C151/A21.51-17, outside diameters",
            Evidence::Published,
        ),
        wall_nominal: Valued::from_text(
            Length::inches(row.wall),
            "AWWA C151/A21.51-17, nominal walls",
            Evidence::Published,
        ),
        wall_min: Valued::from_text(
            Length::inches(row.wall) - Length::inches(row.casting_tolerance),
            "nominal wall less casting tolerance of AWWA C150, confirmed by recomputing the walls",
            Evidence::FromMemory,
        ),
        lining: lining(size_in),
        coating: coating(CoatingKind::ZincAndFinish),
        laying_length: Valued::from_text(
            Length::feet(20.0),
            "published laying length, 20 ft; 18 ft exists to 4 in",
            Evidence::Published,
        ),
        socket_mass: restrained_socket_mass(outside)?,
        socket_outside_diameter: Some(restrained_bell(size_in, outside)?),
        joint_protection: joint_protection(),
        modulus: Valued::from_text(AWWA_MODULUS, "AWWA C150, 24e6 psi", Evidence::Published),
        iron_density: Valued::from_text(
            IRON_DENSITY,
            "a foundry's summary of EN 545; reproduces published masses",
            Evidence::Published,
        ),
        proof_strength: Valued::from_text(
            Pressure::psi(42_000.0),
            "AWWA C150, yield strength in tension 42 000 psi",
            Evidence::Published,
        ),
        stated_mass: None,
        class_pressure: Some(Valued::from_text(
            Pressure::psi(f64::from(pressure_class_psi)),
            "AWWA C151 pressure class: rated working pressure, surge of 100 psi on top",
            Evidence::Published,
        )),
    })
}

/// The socket to reckon with: never less than the unrestrained bell, which a restrained one exceeds.
fn restrained_bell(size_in: u32, outside: Length) -> Result<Valued<Length>, PipeError> {
    let fit = restrained_socket_diameter(outside)?.value;
    let larger = fit.max(awwa_unrestrained_bell(size_in)?.value);
    Ok(Valued::from_text(
        larger,
        "fit for European restrained sockets, from memory, applied to AWWA outside diameters; the \
         published unrestrained bell is smaller",
        Evidence::Judgement,
    ))
}

/// Outside diameter of the bell of US *unrestrained* push-on pipe. For information: the bell of a
/// restrained joint is larger.
///
/// ```text
/// D_b = 1.0409 D + 43.9 mm
/// ```
/// where the size has no published bell; largest residual 5.7 mm.
///
/// # Source
/// One North American manufacturer's published dimensions, table 3-3, read; the fit on them computed.
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
/// # Checked by
/// `cases/pipe/bell-us-pushon.toml` (published).
pub fn awwa_unrestrained_bell(size_in: u32) -> Result<Valued<Length>, PipeError> {
    let d = data()?;
    if let Some(b) = d.bells.iter().find(|b| b.size == size_in) {
        let text = "published bell of unrestrained push-on pipe; a restrained bell is larger";
        return Ok(Valued::from_text(Length::inches(b.bell), text, Evidence::Published));
    }
    let row = d.awwa.iter().find(|r| r.size == size_in).ok_or_else(|| unknown_size(d, size_in))?;
    let outside = Length::inches(row.od);
    Ok(Valued::from_text(
        Length::from_si(1.0409 * outside.si() + 0.0439),
        "fit 1.0409 OD + 43.9 mm on published unrestrained bells, largest residual 5.7 mm",
        Evidence::Computed,
    ))
}

fn unknown_size(d: &Data, size_in: u32) -> PipeError {
    let mut all: Vec<_> = d.awwa.iter().map(|r| r.size).collect();
    all.dedup();
    PipeError::UnknownSize {
        standard: Standard::AwwaC151.name(),
        found: format!("{size_in} in"),
        allowed: listed(all.iter().map(|s| format!("{s} in"))),
    }
}

/// Depth of the socket of US *unrestrained* push-on pipe, 4 to 64 in; `None` where it is not made.
///
/// # Source
/// One North American manufacturer's published dimensions, table 3-3, read.
/// # Errors
/// Only if the embedded table cannot be read.
/// # Checked by
/// `cases/pipe/bell-us-depth.toml` (published).
pub fn awwa_socket_depth(size_in: u32) -> Result<Option<Valued<Length>>, PipeError> {
    let text = "published socket depth of unrestrained push-on pipe";
    let row = data()?.bells.iter().find(|b| b.size == size_in);
    Ok(row.map(|b| Valued::from_text(Length::inches(b.depth), text, Evidence::Published)))
}

/// Cement lining of AWWA C104, single thickness; from memory.
fn lining(size_in: u32) -> Valued<Layer> {
    let thirty_seconds = match size_in {
        0..=12 => 2.0,
        13..=24 => 3.0,
        _ => 4.0,
    };
    Valued::from_text(
        Layer {
            thickness: Length::inches(thirty_seconds / 32.0),
            density: Density::from_si(2400.0),
        },
        "AWWA C104 cement mortar: 1/16 in to 12 in, 3/32 in to 24 in, 1/8 in above; 2400 kg/m3",
        Evidence::FromMemory,
    )
}

/// Published angle of US *unrestrained* push-on joints: 5° to 30 in, 4° at 36 in, 3° from 42 in.
/// For information: it is no allowance for a restrained joint.
///
/// # Source
/// One city's published standard quoting a maker's table, read.
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
pub fn awwa_unrestrained_angle(size_in: u32) -> Result<Valued<Angle>, PipeError> {
    let d = data()?;
    if !d.awwa.iter().any(|r| r.size == size_in) {
        return Err(unknown_size(d, size_in));
    }
    let degrees = match size_in {
        0..=30 => 5.0,
        31..=36 => 4.0,
        _ => 3.0,
    };
    Ok(Valued::from_text(
        Angle::degrees(degrees),
        "published deflection of unrestrained push-on joints (one city's standard)",
        Evidence::Published,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_wall_of_the_table_is_a_valid_pipe_and_thicker_classes_are_heavier() {
        let mut last = (0, 0.0);
        for r in &data().expect("tables").awwa {
            let pipe = awwa_pipe(r.size, r.class_psi).expect("valid");
            let mass = pipe.barrel_mass_per_length().si();
            assert!(r.size != last.0 || mass > last.1, "{} in {} psi", r.size, r.class_psi);
            last = (r.size, mass);
        }
    }

    #[test]
    fn unknown_sizes_and_classes_name_the_allowed_ones() {
        let e = awwa_pipe(5, 350).expect_err("accepted").to_string();
        assert!(e.contains("allowed: 3 in, 4 in, 6 in"), "{e}");
        let e = awwa_pipe(24, 150).expect_err("accepted").to_string();
        assert!(e.contains("allowed: 200 psi, 250 psi, 300 psi, 350 psi"), "{e}");
    }

    #[test]
    fn the_bell_without_a_published_figure_is_computed() {
        let bell = |size| awwa_unrestrained_bell(size).expect("size");
        assert!(awwa_unrestrained_bell(5).is_err());
        assert_eq!(bell(3).evidence(), Evidence::Computed);
        assert_eq!(bell(12).evidence(), Evidence::Published);
        assert!((bell(12).value.to_inches() - 15.37).abs() < 1e-9);
    }

    #[test]
    fn the_socket_to_reckon_with_is_larger_than_the_unrestrained_bell() {
        for r in &data().expect("tables").awwa {
            let pipe = awwa_pipe(r.size, r.class_psi).expect("valid").into_data();
            let socket = pipe.socket_outside_diameter.expect("socket");
            assert_eq!(socket.evidence(), Evidence::Judgement);
            let bell = awwa_unrestrained_bell(r.size).expect("size").value;
            assert!(socket.value > bell, "{} in", r.size);
        }
        // 24 in: 1.0785 x 25.80 in + 54.9 mm.
        let pipe = awwa_pipe(24, 350).expect("valid").into_data();
        let socket = pipe.socket_outside_diameter.expect("socket").value;
        assert!((socket.to_millimetres() - 761.66).abs() < 0.01, "{socket}");
    }
}
