//! How large a millimetre is on this screen: the outline of a bank card, made to fit a real one.

use leptos::prelude::*;

use crate::words::t;

/// Width of a card of format ID-1, in millimetres.
const CARD_MM: f64 = 85.6;
/// First step in pixels of card width; halved each time the way turns.
const FIRST_STEP: f64 = 16.0;
const LAST_STEP: f64 = 1.0;
/// Nothing that is a tablet lies outside these pixels per millimetre.
const MM_PX_MIN: f64 = 3.0;
const MM_PX_MAX: f64 = 12.0;

/// A bank card's outline with wider and narrower; steps get finer each time the way turns.
#[component]
pub(crate) fn CardCalibration(
    /// CSS pixels per millimetre, read at the start and written with every press.
    mm_px: RwSignal<f64>,
) -> impl IntoView {
    let step = StoredValue::new((FIRST_STEP, 0.0_f64));
    let turn = move |way: f64| {
        let (mut by, before) = step.get_value();
        if before * way < 0.0 {
            by = (by / 2.0).max(LAST_STEP);
        }
        step.set_value((by, way));
        mm_px.update(|mm_px| {
            *mm_px = ((*mm_px * CARD_MM + way * by) / CARD_MM).clamp(MM_PX_MIN, MM_PX_MAX);
        });
    };
    let width = move || format!("{:.1}px", mm_px.get() * CARD_MM);
    view! {
        <section class="calibration">
            <p>{t("ui.calibration.do")}</p>
            <div class="card-outline" style:width=width data-testid="card-outline" role="img" aria-label=t("ui.calibration.outline")></div>
            <div class="calibration-keys">
                <button type="button" class="key" data-testid="card-narrower" on:click=move |_| turn(-1.0)>
                    {t("ui.calibration.narrower")}
                </button>
                <button type="button" class="key" data-testid="card-wider" on:click=move |_| turn(1.0)>
                    {t("ui.calibration.wider")}
                </button>
            </div>
        </section>
    }
}
