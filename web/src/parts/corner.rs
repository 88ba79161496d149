//! Where this step is done, in the same corner of every step: the words large, the vehicle small.

use leptos::prelude::*;

use crate::pictures::vehicle_top::{VehicleTop, VehicleTopPicture};

/// "Axle 2, left" large, "driver's side" below, and the vehicle from above with that end filled.
#[component]
pub(crate) fn Corner(
    /// The place, such as "Axle 2, left".
    #[prop(into)]
    place: Signal<String>,
    /// What makes it plain, such as "driver's side"; may be empty.
    #[prop(into)]
    more: Signal<String>,
    /// The vehicle with the place in hand.
    #[prop(into)]
    vehicle: Signal<VehicleTop>,
) -> impl IntoView {
    view! {
        <div class="corner" data-testid="corner">
            <p class="corner-words">
                <strong>{move || place.get()}</strong>
                <span>{move || more.get()}</span>
            </p>
            <VehicleTopPicture vehicle name=place />
        </div>
    }
}
