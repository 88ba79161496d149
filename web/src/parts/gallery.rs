//! Every part and picture in its states, to look at while working on them. Only in debug builds.
//!
//! `#gallery` lists everything; `#gallery/<page>` shows one runner screen. A `heavy` or `dark` after
//! it sets glove and theme. Its texts are samples, not words of the app.

use job::id::Side;
use leptos::prelude::*;
use rules::unit::Unit;

use crate::pictures::caging::CagingPicture;
use crate::pictures::chocks::ChocksPicture;
use crate::pictures::jack::JackPicture;
use crate::pictures::pushrod_stroke::{PushrodStrokePicture, RuleMarks, StrokeDrawn};
use crate::pictures::raise::RaisePicture;
use crate::pictures::shoes::{ShoePart, ShoesPicture};
use crate::pictures::slack::{SlackDrawn, SlackPicture};
use crate::pictures::stands::{StandsDrawn, StandsPicture};
use crate::pictures::vehicle_top::{Body, EndDrawn, Heading, VehicleTop, VehicleTopPicture};
use crate::pictures::wheel_face::{WheelFace, WheelFacePicture};

use super::calibration::CardCalibration;
use super::choice_list::{Choice, ChoiceList};
use super::corner::Corner;
use super::flash::{Flash, Saving};
use super::hold_button::HoldButton;
use super::limit_bar::{LimitBar, LimitBarShown, Tone};
use super::line_list::{Line, LineList};
use super::nav_column::NavColumn;
use super::not_yet::{NotYet, NotYetShown};
use super::notice::{Notice, NoticeShown, NoticeTone};
use super::number_pad::{NumberPad, PadAsk, PadKind};
use super::nut_grid::{NutGrid, NutMark};
use super::question::{Question, QuestionShown};
use super::screen_guard::ScreenGuard;
use super::scroller::Scroller;
use super::text_entry::TextEntry;
use super::wheel_pick::{EndKey, WheelPick};
use super::wide_done::WideDone;

const NAME: &str = "Drawing";

/// True when the address asks for the gallery.
pub(crate) fn is_wanted() -> bool {
    fragment().starts_with("#gallery")
}

fn fragment() -> String {
    web_sys::window()
        .and_then(|window| window.location().hash().ok())
        .unwrap_or_default()
}

/// The page that the address asks for.
#[component]
pub(crate) fn Gallery() -> impl IntoView {
    let wanted = fragment();
    let mut words = wanted.split('/').skip(1);
    let page = words.next().unwrap_or_default().to_owned();
    for word in words {
        let root = web_sys::window()
            .and_then(|window| window.document())
            .and_then(|page| page.document_element());
        let name = if word == "heavy" {
            "data-glove"
        } else {
            "data-theme"
        };
        if let Some(root) = root
            && root.set_attribute(name, word).is_err()
        {
            leptos::logging::warn!("{name} not set");
        }
    }
    match page.as_str() {
        "decimal" => runner(
            number(PadKind::Decimal, vec![Unit::Millimetre], "419.10"),
            false,
        )
        .into_any(),
        "units" => runner(
            number(
                PadKind::Decimal,
                vec![Unit::Kilogram, Unit::Pound, Unit::ShortTon, Unit::Tonne],
                "8200",
            ),
            false,
        )
        .into_any(),
        "whole" => runner(number(PadKind::Whole, Vec::new(), ""), false).into_any(),
        "stroke" => runner(
            number(
                PadKind::Sixteenths,
                vec![Unit::Inch, Unit::Millimetre],
                "1 13/16",
            ),
            false,
        )
        .into_any(),
        "question" => runner(question(), false).into_any(),
        "choices" => runner(choices(8), false).into_any(),
        "few" => runner(choices(2), false).into_any(),
        "lines" => runner(lines(), false).into_any(),
        "hold" => runner(
            view! { <div class="picture-state"><ChocksPicture name=NAME /></div> }.into_any(),
            true,
        )
        .into_any(),
        "nuts" => runner(nuts(), false).into_any(),
        "wheels" => runner(wheels(&[1, 2], Body::Tractor), false).into_any(),
        "wheels5" => runner(wheels(&[1, 2, 2], Body::Truck), false).into_any(),
        "map" => map().into_any(),
        "not-yet" => runner(not_yet(), false).into_any(),
        "verdicts" => runner(
            view! { <Scroller><div class="rows">{bars()}</div></Scroller> }.into_any(),
            false,
        )
        .into_any(),
        "pictures" => pictures().into_any(),
        _ => everything().into_any(),
    }
}

fn runner(body: AnyView, protects: bool) -> impl IntoView {
    let said = RwSignal::new(false);
    let saving = RwSignal::new(Saving::Quiet);
    let press = Callback::new(move |()| {
        saving.set(Saving::Going);
        set_timeout(
            move || saving.set(Saving::Kept),
            std::time::Duration::from_millis(120),
        );
    });
    view! {
        <div class="runner">
            <ScreenGuard screen="one">
                <NavColumn on_go=Callback::new(|_| ())>
                    <Corner place="Axle 2, left" more="driver's side" vehicle=vehicle(&[1, 2], Body::Tractor) />
                </NavColumn>
                <header class="head">
                    <h1>"Set chocks before and behind a wheel that stays on the ground"</h1>
                    <p class="why">"The brakes of this vehicle will be off."</p>
                    <p class="caution">"Parking brake, engine and air are not enough: a vehicle on stands rolls where its chocked wheels let it roll, so look again."</p>
                </header>
                <main class="body">{body}</main>
                <div class="done-area">
                    {if protects {
                        let on_held = Callback::new(move |()| said.set(true));
                        view! { <HoldButton words="The chocks are in" held=said on_held /> }.into_any()
                    } else {
                        view! { <WideDone words="Done" waits=false on_done=press /> }.into_any()
                    }}
                </div>
            </ScreenGuard>
            <Flash saving />
        </div>
    }
}

fn number(kind: PadKind, units: Vec<Unit>, text: &str) -> AnyView {
    let typed = RwSignal::new(text.to_owned());
    let unit = RwSignal::new(units.first().copied());
    let ask = PadAsk {
        kind,
        words: "Applied stroke at 90 to 100 psi".to_owned(),
        units,
        line: "Usually 1 1/4 to 2 in".to_owned(),
    };
    view! { <NumberPad ask=Signal::stored(ask) typed unit /> }.into_any()
}

fn question() -> AnyView {
    let question = QuestionShown {
        typed: "18.7 in".to_owned(),
        ask: "Ten times what is usual here (1 1/4 to 2 in). Is the point in the right place?"
            .to_owned(),
        keep: "It is 18.7 in".to_owned(),
        again: "Type it again".to_owned(),
    };
    view! { <Question question on_answer=Callback::new(|_| ()) /> }.into_any()
}

fn choices(count: u8) -> AnyView {
    let chosen = RwSignal::new(vec!["1".to_owned()]);
    let list: Vec<Choice> = (0..count)
        .map(|n| Choice {
            id: n.to_string(),
            words: format!("Type {} chamber, standard stroke", 16 + n * 4),
            detail: "cast on the clamp band".to_owned(),
        })
        .collect();
    view! { <ChoiceList choices=Signal::stored(list) chosen on_choose=Callback::new(move |id| chosen.set(vec![id])) /> }
        .into_any()
}

fn lines() -> AnyView {
    let all = [
        "Return springs",
        "Retaining springs",
        "Anchor pins",
        "Rollers",
        "Cam bushings",
    ];
    let lines = RwSignal::new(
        all.iter()
            .map(|words| Line {
                id: words.to_lowercase(),
                words: (*words).to_owned(),
                out: *words == "Rollers",
            })
            .collect::<Vec<_>>(),
    );
    let turn = Callback::new(move |id: String| {
        lines.update(|lines| {
            lines
                .iter_mut()
                .filter(|line| line.id == id)
                .for_each(|line| line.out = !line.out)
        });
    });
    view! { <LineList lines on_turn=turn /> }.into_any()
}

fn nuts() -> AnyView {
    use NutMark::{Apart, Done, Next, Open};
    let marks = vec![Done, Done, Apart, Done, Next, Open, Open, Open, Open, Open];
    view! { <NutGrid marks=Signal::stored(marks) on_nut=Callback::new(|_| ()) /> }.into_any()
}

fn vehicle(groups: &[u8], body: Body) -> VehicleTop {
    let tones = [
        None,
        None,
        Some(Tone::Within),
        Some(Tone::AtTheLimit),
        Some(Tone::Beyond),
        Some(Tone::Replace),
    ];
    let ends = |axle: u8| {
        [Side::Left, Side::Right].map(move |side| EndDrawn {
            axle,
            side,
            tone: tones[usize::from(axle * 2 + u8::from(side == Side::Right) - 2) % 6],
            letter: if axle > 1 {
                "J".to_owned()
            } else {
                String::new()
            },
        })
    };
    let axles: u8 = groups.iter().sum();
    VehicleTop {
        groups: groups.to_vec(),
        body,
        heading: Heading::Up,
        in_hand: (2..=axles).collect(),
        here: vec![(2, Side::Left)],
        ends: (1..=axles).flat_map(ends).collect(),
        chocks: vec![(1, Side::Left), (1, Side::Right)],
        jacks: vec![2],
        stands: vec![3],
    }
}

fn wheels(groups: &[u8], body: Body) -> AnyView {
    let drawn = vehicle(groups, body);
    let ends: Vec<EndKey> = drawn
        .ends
        .iter()
        .map(|end| EndKey {
            axle: end.axle,
            side: end.side,
            words: format!(
                "{} {}",
                end.axle,
                if end.side == Side::Left {
                    "left"
                } else {
                    "right"
                }
            ),
            detail: "Judge".to_owned(),
            chosen: end.axle == 2 && end.side == Side::Left,
            tone: end.tone,
            in_hand: end.axle > 1,
        })
        .collect();
    view! { <WheelPick vehicle=drawn ends=Signal::stored(ends) on_end=Callback::new(|_| ()) /> }
        .into_any()
}

fn map() -> AnyView {
    view! {
        <div class="screen">
            <header class="head"><h1>"Unit 4711, tractor"</h1></header>
            <main class="body">{wheels(&[1, 2], Body::Tractor)}</main>
            <footer class="foot">
                <button type="button" class="key">"Cards"</button>
                <button type="button" class="key">"Extra lines"</button>
                <button type="button" class="key">"Hand back"</button>
            </footer>
        </div>
    }
    .into_any()
}

fn hold_shown() -> NotYetShown {
    NotYetShown {
        why: "axle 3 right has no shoes on.".to_owned(),
        todo: "Air goes into a brake only when every drum of the vehicle is on.".to_owned(),
        go: Some("Axle 3, right".to_owned()),
    }
}

fn not_yet() -> AnyView {
    view! {
        <NotYet hold=Signal::stored(Some(hold_shown())) on_go=Callback::new(|()| ()) />
        <div class="picture-state"><JackPicture name=NAME /></div>
    }
    .into_any()
}

fn bars() -> impl IntoView {
    let bar = |tone, word: &str, used, room: &str| {
        let shown = LimitBarShown {
            tone,
            word: word.to_owned(),
            reading: "1 13/16 in".to_owned(),
            limits: vec!["Limit 2 in (50.8 mm)".to_owned()],
            room: (!room.is_empty()).then(|| room.to_owned()),
            source: "49 CFR 393.47(e)(1), as amended 14 October 2021".to_owned(),
            remarks: Vec::new(),
            used,
        };
        view! { <LimitBar shown=Signal::stored(Some(shown)) /> }
    };
    view! {
        {bar(Tone::Within, "within", 0.9, "3/16 in left")}
        {bar(Tone::AtTheLimit, "at the limit", 1.0, "no room")}
        {bar(Tone::Beyond, "beyond", 1.12, "1/4 in too much")}
        {bar(Tone::NoReading, "no reading", 0.0, "")}
        {bar(Tone::Sound, "sound", 0.0, "")}
        {bar(Tone::Replace, "replace", 0.0, "")}
        {bar(Tone::Kept, "", 0.0, "")}
    }
}

fn pictures() -> impl IntoView {
    let face = |studs: u8, order: &[u8], done| {
        let wheel = WheelFace {
            studs,
            order: order.to_vec(),
            done,
        };
        view! { <WheelFacePicture wheel=Signal::stored(wheel) name=NAME /> }
    };
    let stroke = |marks, applied, limit| {
        let stroke = StrokeDrawn {
            marks,
            applied,
            limit,
        };
        view! { <PushrodStrokePicture stroke=Signal::stored(stroke) name=NAME /> }
    };
    let slack = |angle_degrees, automatic| {
        let slack = SlackDrawn {
            angle_degrees,
            automatic,
        };
        view! { <SlackPicture slack=Signal::stored(slack) name=NAME /> }
    };
    let stands = StandsDrawn {
        tags: ["5 t, pair".to_owned(), "5 t, each".to_owned()],
        pinned: [true, false],
    };
    view! {
        <div class="page gallery-pictures">
            <VehicleTopPicture vehicle=vehicle(&[1, 2], Body::Tractor).heading(Heading::Left) name=NAME />
            <VehicleTopPicture vehicle=vehicle(&[2], Body::Semitrailer).heading(Heading::Left) name=NAME />
            <VehicleTopPicture vehicle=vehicle(&[1, 1], Body::Trailer).heading(Heading::Left) name=NAME />
            <VehicleTopPicture vehicle=vehicle(&[2, 2], Body::Truck) name=NAME />
            <ChocksPicture name=NAME />
            <StandsPicture stands=Signal::stored(stands) name=NAME />
            <RaisePicture name=NAME />
            <JackPicture name=NAME />
            <CagingPicture caged=false name=NAME />
            <CagingPicture caged=true name=NAME />
            {face(10, &[1, 6, 3, 8, 5, 10, 7, 2, 9, 4], 3)}
            {face(6, &[1, 4, 2, 5, 3, 6], 0)}
            {stroke(RuleMarks::Inches, Some(1.8125), Some(2.0))}
            {stroke(RuleMarks::Millimetres, None, Some(44.5))}
            <ShoesPicture part=ShoePart::Lining name=NAME />
            <ShoesPicture part=ShoePart::Cam name=NAME />
            {slack(90.0, true)}
            {slack(105.0, false)}
        </div>
    }
}

fn everything() -> impl IntoView {
    let said = RwSignal::new(false);
    let text = RwSignal::new(String::new());
    let mm_px = RwSignal::new(5.2);
    let notice = |tone, words: &str| {
        let notice = NoticeShown {
            tone,
            words: words.to_owned(),
            action: Some("Save a copy".to_owned()),
        };
        view! { <Notice notice=Signal::stored(Some(notice)) on_action=Callback::new(|()| ()) /> }
    };
    let flash = |saving: Saving| view! { <Flash saving=Signal::stored(saving) /> };
    view! {
        <div class="page">
            {notice(NoticeTone::Plain, "A newer build is ready.")}
            {notice(NoticeTone::Stops, "The store of this tablet is full. Nothing is lost, but nothing more can be saved.")}
            <NotYet hold=Signal::stored(Some(hold_shown())) on_go=Callback::new(|()| ()) />
            {bars()}
            <HoldButton words="The chocks are in" held=said on_held=Callback::new(move |()| said.set(true)) />
            <WideDone words="Done" waits=true on_done=Callback::new(|()| ()) />
            <TextEntry words="Unit number" text />
            {question()}
            {nuts()}
            {lines()}
            <CardCalibration mm_px />
            {flash(Saving::Failed)}
        </div>
        {pictures()}
    }
}
