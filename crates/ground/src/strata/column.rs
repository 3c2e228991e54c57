use quantity::Length;

/// One soil in a vertical line through the ground; levels in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Index of the soil in the list of the site.
    pub soil: usize,
    /// Level of its top, m.
    pub top: f64,
    /// Level of its base, m; the lowest layer goes on below the borings and has −∞.
    pub base: f64,
}

/// The ground in a vertical line.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Layers from the ground line down, each with some thickness.
    pub layers: Vec<Layer>,
    /// Level of the ground line, m.
    pub ground: f64,
    /// Level down to which borings reach, between them on a straight line, m.
    pub known_to: f64,
    /// By how much the ground line lies above the ground of the borings, m: a bank or a fill is taken as the first layer.
    pub raised: f64,
}

impl Column {
    /// The layer at a level; a boundary belongs to the layer above it. `None` above the ground.
    #[must_use]
    pub fn layer_at(&self, level: Length) -> Option<&Layer> {
        let z = level.si();
        if z > self.ground {
            return None;
        }
        self.layers.iter().find(|l| z >= l.base)
    }

    /// Whether borings reach down to a level here.
    #[must_use]
    pub fn is_known(&self, level: Length) -> bool {
        level.si() >= self.known_to
    }

    /// The other layers with the distance of their nearest boundary from a level, and whether they lie above.
    pub(crate) fn others(&self, level: f64) -> impl Iterator<Item = (f64, &Layer, bool)> {
        let at = self.layers.iter().position(|l| level >= l.base);
        self.layers.iter().enumerate().filter_map(move |(i, l)| match i.cmp(&at?) {
            std::cmp::Ordering::Less => Some((l.base - level, l, true)),
            std::cmp::Ordering::Equal => None,
            std::cmp::Ordering::Greater => Some((level - l.top, l, false)),
        })
    }
}
