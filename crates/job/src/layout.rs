//! How the axles of a vehicle stand in groups, front to back.

use crate::id::Place;

/// Group sizes from the front: a tractor with a steer axle and a tandem is `1-2`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout(Vec<u8>);

impl Layout {
    /// Most axles a card can hold.
    pub const AXLES_MAX: u8 = 9;

    /// Reads `1-2`. `None` if it is no layout.
    pub fn read(text: &str) -> Option<Self> {
        let groups: Vec<u8> = text
            .split('-')
            .map(|size| size.parse().ok())
            .collect::<Option<_>>()?;
        let axles: u32 = groups.iter().map(|&size| u32::from(size)).sum();
        (groups.iter().all(|&size| size > 0) && axles <= u32::from(Self::AXLES_MAX))
            .then_some(Self(groups))
    }

    /// The group sizes, front first.
    pub fn groups(&self) -> &[u8] {
        &self.0
    }

    /// Number of axles.
    pub fn axles(&self) -> u8 {
        self.0.iter().sum()
    }

    /// The axles of the group that `axle` belongs to.
    pub fn group_of(&self, axle: u8) -> Vec<u8> {
        let mut first = 1;
        for &size in &self.0 {
            let group = first..first + size;
            if group.contains(&axle) {
                return group.collect();
            }
            first += size;
        }
        Vec::new()
    }

    /// Every wheel end, front first, left first.
    pub fn ends(&self) -> Vec<Place> {
        (1..=self.axles()).flat_map(Place::ends).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_of_a_tractor() {
        let layout = Layout::read("1-2").unwrap();
        assert_eq!(layout.axles(), 3);
        assert_eq!(layout.group_of(1), [1]);
        assert_eq!(layout.group_of(3), [2, 3]);
        assert!(layout.group_of(4).is_empty());
    }

    #[test]
    fn what_is_no_layout_is_refused() {
        for text in ["", "0", "1-0", "1--2", "a", "5-5", "300"] {
            assert_eq!(Layout::read(text), None, "{text}");
        }
    }
}
