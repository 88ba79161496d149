//! Instruments to be read, drawn from what they show. One unit of a drawing is one millimetre at the
//! calibrated size, so that marks and figures are as large as on the thing itself or larger.
//!
//! The whole instrument stands small on the left; what lies round its pointer stands enlarged on the
//! right. Figures are engraved as strokes: what is shown is nowhere written in the page.

use leptos::prelude::*;
use practice::instrument::{Instrument, Tool};

use crate::words::{fill, t};

mod engraved;
mod round_scale;
mod straight_scale;

pub(crate) mod click;

mod angle_gauge;
mod dial;
mod drum_micrometer;
mod feeler;
mod lining_gauge;
mod micrometer;
mod pressure_gauge;
mod pushrod_rule;
mod shoe_caliper;
mod torque_wrench;

/// An instrument as it stands, with its name, its unit and what its marks are read aloud; the
/// reading is left to the eye.
#[component]
pub(crate) fn InstrumentPicture(instrument: Instrument) -> impl IntoView {
    let marks = f64_of(instrument.marks());
    let drawn = match instrument.tool() {
        Tool::PushrodRule => pushrod_rule::drawn(marks).into_any(),
        Tool::LiningGauge => lining_gauge::drawn(marks).into_any(),
        Tool::ShoeCaliper => shoe_caliper::drawn(marks).into_any(),
        Tool::Dial => dial::drawn(instrument.marks()).into_any(),
        Tool::Feeler => feeler::drawn(instrument.marks()).into_any(),
        Tool::Micrometer => micrometer::drawn(instrument.marks()).into_any(),
        Tool::DrumMicrometer => drum_micrometer::drawn(marks).into_any(),
        Tool::TorqueFeet => torque_wrench::drawn(instrument.marks(), 60).into_any(),
        Tool::TorqueInches => torque_wrench::drawn(instrument.marks(), 100).into_any(),
        Tool::PressureGauge => pressure_gauge::drawn(instrument.marks()).into_any(),
        Tool::AngleGauge => angle_gauge::drawn(instrument.marks()).into_any(),
    };
    let code = instrument.tool().code();
    view! {
        <svg
            class="pic instrument"
            viewBox="0 0 124 58"
            role="img"
            aria-label=instrument_name(instrument.tool())
            data-testid=format!("instrument-{code}")
        >
            {drawn}
        </svg>
    }
}

/// What an instrument is called, and what lies between two of its marks.
pub(crate) fn instrument_name(tool: Tool) -> String {
    let code = tool.code();
    let (name, marks) = (t(&format!("tool.{code}")), t(&format!("tool.{code}.marks")));
    fill("tool.name", &[("tool", &name), ("marks", &marks)])
}

/// A count of marks as a place on a drawing.
fn f64_of(marks: i64) -> f64 {
    f64::from(i32::try_from(marks).unwrap_or(i32::MAX))
}
