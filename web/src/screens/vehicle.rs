//! A vehicle's drawing from what its card was started with: kind, layout, axles in hand.

use job::layout::Layout;

use crate::pictures::vehicle_top::{Body, Heading, VehicleTop};

use super::kinds::usually_single;

/// The drawing, front to the left.
pub(crate) fn drawn(vehicle: &str, layout: &str, in_hand: &[u8]) -> VehicleTop {
    let layout = Layout::read(layout);
    VehicleTop {
        groups: layout
            .as_ref()
            .map(|layout| layout.groups().to_vec())
            .unwrap_or_default(),
        singles: layout
            .map(|layout| usually_single(vehicle, &layout))
            .unwrap_or_default(),
        body: body(vehicle),
        heading: Heading::Left,
        in_hand: in_hand.to_vec(),
        ..VehicleTop::default()
    }
}

/// What stands at the front of a kind of vehicle.
pub(crate) fn body(vehicle: &str) -> Body {
    match vehicle {
        "tractor" => Body::Tractor,
        "semitrailer" => Body::Semitrailer,
        "full-trailer" => Body::Trailer,
        _ => Body::Truck,
    }
}
