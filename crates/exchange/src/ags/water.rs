use std::collections::BTreeMap;

use crate::issue::Located;
use crate::records::{WaterKind, WaterRecord};

/// How far water had risen some time after a strike.
#[derive(Debug)]
pub(super) struct Rise {
    pub(super) boring: Located<String>,
    /// Depth of the strike, m.
    pub(super) strike: f64,
    pub(super) minutes: f64,
    pub(super) depth: Located<f64>,
}

/// Standing water of every strike: its reading after the longest time, in the order of the file.
pub(super) fn standing(rises: Vec<Rise>) -> Vec<WaterRecord> {
    let mut last: BTreeMap<(String, u64), Rise> = BTreeMap::new();
    for rise in rises {
        // The strike is a key of the file, so it is written alike in all of its readings.
        let key = (rise.boring.value.clone(), rise.strike.to_bits());
        let later = last.get(&key).is_none_or(|known| rise.minutes >= known.minutes);
        if later {
            last.insert(key, rise);
        }
    }
    let mut records: Vec<_> = last
        .into_values()
        .map(|rise| WaterRecord {
            boring: rise.boring,
            depth: rise.depth,
            kind: WaterKind::Standing,
        })
        .collect();
    records.sort_by_key(|record| record.depth.place.line);
    records
}
