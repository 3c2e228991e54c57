use pipe::{AWWA_MODULUS, LayingType};
use quantity::{Length, Pressure, show, unit};

use super::wall::SERVICE_ALLOWANCE;
use crate::ServiceError;
use crate::error::{finite, not_negative, positive, within};

/// Bending stress that C150 allows in the ring, 48 000 psi; read.
pub const RING_BENDING_LIMIT: Pressure = Pressure::from_si(48_000.0 * 6_894.757_293_168);

/// Deflection that C150 allows for lined pipe, share of the diameter; read.
const DEFLECTION_LIMIT: f64 = 0.03;

/// Coefficient of the soil's share in the deflection equation of the ring.
const SOIL_SHARE: f64 = 0.732;

/// Which of the two criteria of C150 governs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Criterion {
    /// Ring bending stress.
    Bending,
    /// Ring deflection.
    Deflection,
}

impl Criterion {
    /// Word in outputs.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Criterion::Bending => "bending",
            Criterion::Deflection => "deflection",
        }
    }
}

/// What a pipe bears by both criteria of C150.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct C150Load {
    /// Net wall, for bending: nominal less casting tolerance less service allowance.
    pub net_wall: Length,
    /// Wall for the deflection: nominal less casting tolerance.
    pub deflection_wall: Length,
    /// Vertical pressure at the bending limit.
    pub by_bending: Pressure,
    /// Vertical pressure at the deflection limit.
    pub by_deflection: Pressure,
    /// The smaller one.
    pub governs: Criterion,
}

impl C150Load {
    /// What a pipe of a nominal wall bears in a laying condition.
    ///
    /// # Errors
    /// [`ServiceError::OutOfRange`] where tolerance and allowance leave no wall.
    pub fn of(
        outside_diameter: Length,
        wall_nominal: Length,
        casting_tolerance: Length,
        laying: &LayingType,
    ) -> Result<Self, ServiceError> {
        let nominal = positive("nominal wall", wall_nominal.si(), unit::MM)?;
        let tolerance = not_negative("casting tolerance", casting_tolerance.si(), unit::MM)?;
        let least = tolerance + SERVICE_ALLOWANCE.si();
        within("nominal wall", nominal, unit::MM, nominal > least, || {
            format!("more than tolerance and service allowance ({})", show(least, unit::MM))
        })?;
        let deflection_wall = Length::from_si(nominal - tolerance);
        let net_wall = deflection_wall - SERVICE_ALLOWANCE;
        let by_bending = capacity_by_bending(outside_diameter, net_wall, laying)?;
        let by_deflection = capacity_by_deflection(outside_diameter, deflection_wall, laying)?;
        let governs =
            if by_deflection < by_bending { Criterion::Deflection } else { Criterion::Bending };
        Ok(Self { net_wall, deflection_wall, by_bending, by_deflection, governs })
    }

    /// What the governing criterion allows.
    #[must_use]
    pub fn capacity(&self) -> Pressure {
        self.by_bending.min(self.by_deflection)
    }
}

fn ratio(outside_diameter: Length, wall: Length) -> Result<f64, ServiceError> {
    let (d, t) = crate::error::ring("outside diameter", outside_diameter.si(), wall.si())?;
    Ok(d / t)
}

/// Vertical pressure at which the ring reaches its bending limit (AWWA C150).
///
/// ```text
/// P_v = f / { 3 (D/t) (D/t − 1) [ K_b − K_x / ( 8 E / (E′ (D/t − 1)³) + 0.732 ) ] }
/// ```
/// | symbol | meaning                        | unit | argument                |
/// |--------|--------------------------------|------|-------------------------|
/// | f      | bending limit, 48 000 psi      | Pa   | [`RING_BENDING_LIMIT`]  |
/// | D, t   | outside diameter, net wall     | m    | `outside_diameter`, `net_wall` |
/// | E      | modulus of the iron, 24·10⁶ psi | Pa  | [`AWWA_MODULUS`]        |
/// | E′, K_b, K_x | laying condition         | Pa, –| `laying`                |
///
/// # Source
/// ANSI/AWWA C150/A21.50; limit and modulus read, form from memory and confirmed by the published
/// cover table.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/c150-maximum-cover.toml`; property: a weaker bedding never bears more.
pub fn capacity_by_bending(
    outside_diameter: Length,
    net_wall: Length,
    laying: &LayingType,
) -> Result<Pressure, ServiceError> {
    let n = ratio(outside_diameter, net_wall)?;
    let soil = positive("modulus of soil reaction", laying.soil_modulus.si(), unit::PSI)?;
    let relief = laying.deflection_coefficient
        / (8.0 * AWWA_MODULUS.si() / (soil * (n - 1.0).powi(3)) + SOIL_SHARE);
    let moment = laying.moment_coefficient - relief;
    finite("capacity by bending", RING_BENDING_LIMIT.si() / (3.0 * n * (n - 1.0) * moment))
        .map(Pressure::from_si)
}

/// Vertical pressure at which the ring deflects by 3 % of its diameter (AWWA C150).
///
/// ```text
/// P_v = (Δx/D) / (12 K_x) · [ 8 E / (D/t₁ − 1)³ + 0.732 E′ ]
/// ```
/// t₁ wall with the service allowance; the other symbols as in [`capacity_by_bending`].
///
/// # Source
/// ANSI/AWWA C150/A21.50; limit read, form from memory and confirmed by published cover.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/c150-cover-by-type.toml` (36 in, type 5: deflection governs).
pub fn capacity_by_deflection(
    outside_diameter: Length,
    deflection_wall: Length,
    laying: &LayingType,
) -> Result<Pressure, ServiceError> {
    let n = ratio(outside_diameter, deflection_wall)?;
    let soil = positive("modulus of soil reaction", laying.soil_modulus.si(), unit::PSI)?;
    let stiffness = 8.0 * AWWA_MODULUS.si() / (n - 1.0).powi(3) + SOIL_SHARE * soil;
    finite(
        "capacity by deflection",
        DEFLECTION_LIMIT / (12.0 * laying.deflection_coefficient) * stiffness,
    )
    .map(Pressure::from_si)
}
