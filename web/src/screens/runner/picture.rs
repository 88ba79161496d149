//! The picture of a step, drawn from the card where it can be.

use job::card::Card;
use job::event::{Answer, StandCondition};
use leptos::prelude::*;

use super::Asking;
use crate::pictures::caging::CagingPicture;
use crate::pictures::chocks::ChocksPicture;
use crate::pictures::jack::JackPicture;
use crate::pictures::pushrod_stroke::{PushrodStrokePicture, RuleMarks, StrokeDrawn};
use crate::pictures::raise::RaisePicture;
use crate::pictures::shoes::{ShoePart, ShoesPicture};
use crate::pictures::slack::{SlackDrawn, SlackPicture};
use crate::pictures::stands::{StandsDrawn, StandsPicture};
use crate::pictures::vehicle_top::{Heading, VehicleTopPicture};
use crate::pictures::wheel_face::{WheelFace, WheelFacePicture};
use crate::screen::Screen;
use crate::screens::map::vehicle_picture;
use crate::screens::told::told_tag;
use crate::settings::UnitChoice;
use crate::words::t;

/// The picture for one ask, or nothing where none helps.
pub(super) fn view(asking: &Asking) -> AnyView {
    let session = asking.session;
    let name = t(&format!("step.{}.do", asking.step.id));
    let at = asking.at;
    let step = asking.step.id.as_str();
    let Some(picture) = asking.step.picture.as_deref() else {
        return ().into_any();
    };
    let drawn = match picture {
        // What is handed over here is a sheet: it is looked at on its own screen.
        "record" => {
            return view! {
                <div class="key-row">
                    <button
                        type="button"
                        class="key wide-key"
                        data-testid="to-record"
                        on:click=move |_| session.go(Screen::Record)
                    >
                        {t("ui.record.open")}
                    </button>
                </div>
            }
            .into_any();
        }
        "vehicle" => {
            let vehicle =
                Signal::derive(move || vehicle_picture(session, Some(at)).heading(Heading::Left));
            view! { <VehicleTopPicture vehicle name/> }.into_any()
        }
        "chocks" => view! { <ChocksPicture name/> }.into_any(),
        "stands" => {
            let drawn = asking
                .with_card(|card| stands_of(card, asking))
                .flatten()
                .unwrap_or_default();
            view! { <StandsPicture stands=Signal::stored(drawn) name/> }.into_any()
        }
        "raise" => view! { <RaisePicture name/> }.into_any(),
        "jack" => view! { <JackPicture name/> }.into_any(),
        "caging" => view! { <CagingPicture caged=step == "caging" name/> }.into_any(),
        "shoes" => {
            let part = if step == "springs" {
                ShoePart::Springs
            } else {
                ShoePart::Lining
            };
            view! { <ShoesPicture part=Signal::stored(part) name/> }.into_any()
        }
        "slack" => {
            let automatic = asking
                .with_card(|card| {
                    at.axle()
                        .and_then(|axle| card.choice(job::id::Place::Axle(axle), "adjuster-style"))
                        .is_none_or(|style| style.as_str() != "manual")
                })
                .unwrap_or(true);
            // The angle is drawn, not measured: no figure is shown for it.
            let slack = SlackDrawn {
                angle_degrees: f64::NAN,
                automatic,
            };
            view! { <SlackPicture slack=Signal::stored(slack) name/> }.into_any()
        }
        "stroke" => {
            let marks = match session.settings.with_untracked(|settings| settings.units) {
                UnitChoice::InchPound => RuleMarks::Inches,
                UnitChoice::Metric => RuleMarks::Millimetres,
            };
            let stroke = StrokeDrawn {
                marks,
                applied: None,
                limit: None,
            };
            view! { <PushrodStrokePicture stroke=Signal::stored(stroke) name/> }.into_any()
        }
        "wheel-face" => {
            let studs = asking
                .with_card(|card| card.studs(at))
                .flatten()
                .and_then(|studs| u8::try_from(studs).ok());
            match studs {
                Some(studs) => {
                    let wheel = WheelFace {
                        studs,
                        order: Vec::new(),
                        done: 0,
                    };
                    view! { <WheelFacePicture wheel=Signal::stored(wheel) name/> }.into_any()
                }
                None => return ().into_any(),
            }
        }
        _ => return ().into_any(),
    };
    view! { <figure class="step-picture" data-testid="picture">{drawn}</figure> }.into_any()
}

/// The stands that were put under this axle, if they were picked already.
fn stands_of(card: &Card, asking: &Asking) -> Option<StandsDrawn> {
    let slot = card.slot(&asking.step, &asking.ask, asking.at, job::event::Item::Only)?;
    let Answer::Stands { stands } = &slot.live().last()?.value.answer else {
        return None;
    };
    let tag = |at: usize| {
        stands
            .get(at)
            .map(|stand| told_tag(&stand.tag))
            .unwrap_or_default()
    };
    let pinned = |at: usize| {
        stands
            .get(at)
            .is_some_and(|stand| stand.tag.condition != StandCondition::PinMissing)
    };
    Some(StandsDrawn {
        tags: [tag(0), tag(1)],
        pinned: [pinned(0), pinned(1)],
    })
}
