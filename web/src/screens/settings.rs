//! How this tablet is set: glove, size of a millimetre, theme, units; and how lasting its store is.

use leptos::prelude::*;

use crate::parts::calibration::CardCalibration;
use crate::parts::scroller::Scroller;
use crate::session::Session;
use crate::settings::{Glove, Settings, Theme, UnitChoice};
use crate::words::{fill, t};

use super::page::{Page, way_back};

/// The settings of one tablet. Each takes effect with its press.
#[component]
pub(crate) fn SettingsScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let set = move |change: &dyn Fn(&mut Settings)| {
        session.settings.update(|settings| change(settings));
        session.settings.with_untracked(Settings::keep);
    };
    let gloves = [(Glove::Thin, "thin"), (Glove::Heavy, "heavy")].map(|(glove, code)| {
        let chosen =
            Signal::derive(move || session.settings.with(|settings| settings.glove == glove));
        let choose = Callback::new(move |()| set(&|settings| settings.glove = glove));
        view! { <SettingKey setting="glove" code chosen on_choose=choose /> }
    });
    let themes = [(Theme::Light, "light"), (Theme::Dark, "dark")].map(|(theme, code)| {
        let chosen =
            Signal::derive(move || session.settings.with(|settings| settings.theme == theme));
        let choose = Callback::new(move |()| set(&|settings| settings.theme = theme));
        view! { <SettingKey setting="theme" code chosen on_choose=choose /> }
    });
    let units = [
        (UnitChoice::InchPound, "inch-pound"),
        (UnitChoice::Metric, "metric"),
    ]
    .map(|(units, code)| {
        let chosen =
            Signal::derive(move || session.settings.with(|settings| settings.units == units));
        let choose = Callback::new(move |()| set(&|settings| settings.units = units));
        view! { <SettingKey setting="units" code chosen on_choose=choose /> }
    });
    let lasting = move || match session.lasting.get() {
        Some(true) => t("ui.lasting.yes"),
        Some(false) => t("ui.lasting.no"),
        None => t("ui.lasting.not-asked"),
    };
    view! {
        <Page title=t("ui.settings.title") on_back=back>
            <Scroller>
                <section class="setting">
                    <h2>{t("ui.settings.glove")}</h2>
                    <div class="key-row">{gloves.into_iter().collect_view()}</div>
                </section>
                <Calibration />
                <section class="setting">
                    <h2>{t("ui.settings.theme")}</h2>
                    <div class="key-row">{themes.into_iter().collect_view()}</div>
                </section>
                <section class="setting">
                    <h2>{t("ui.settings.units")}</h2>
                    <p class="page-line">{t("ui.settings.units-line")}</p>
                    <div class="key-row">{units.into_iter().collect_view()}</div>
                </section>
                <section class="setting">
                    <h2>{t("ui.settings.store")}</h2>
                    <p class="page-line" data-testid="lasting">{lasting}</p>
                    <p class="page-line" data-testid="tablet-id">{fill("ui.settings.tablet", &[("tablet", session.tablet().as_str())])}</p>
                </section>
            </Scroller>
        </Page>
    }
}

/// One of the values of a setting.
#[component]
fn SettingKey(
    setting: &'static str,
    code: &'static str,
    chosen: Signal<bool>,
    on_choose: Callback<()>,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class="key"
            class:chosen=chosen
            aria-pressed=move || chosen.get().to_string()
            data-testid=format!("{setting}-{code}")
            on:click=move |_| on_choose.run(())
        >
            {t(&format!("ui.settings.{setting}.{code}"))}
        </button>
    }
}

/// The outline of a bank card, and the key that keeps its size: until then no key changes under a finger.
#[component]
fn Calibration() -> impl IntoView {
    let session = expect_context::<Session>();
    let px = RwSignal::new(session.settings.with_untracked(Settings::px_per_mm));
    let keep = move |_| {
        let px = px.get_untracked();
        session
            .settings
            .update(|settings| settings.px_per_mm = Some(px));
        session.settings.with_untracked(Settings::keep);
    };
    let state = move || {
        let kept = session.settings.with(|settings| settings.px_per_mm);
        match kept {
            None => t("ui.calibration.never"),
            // Compared as kept: both come from the same presses.
            Some(kept) if (kept - px.get()).abs() < 1e-9 => t("ui.calibration.kept"),
            Some(_) => t("ui.calibration.changed"),
        }
    };
    view! {
        <section class="setting">
            <h2>{t("ui.settings.size")}</h2>
            <CardCalibration mm_px=px />
            <p class="page-line" data-testid="calibration-state">{state}</p>
            <button type="button" class="key wide-key" data-testid="calibration-keep" on:click=keep>
                {t("ui.calibration.keep")}
            </button>
        </section>
    }
}
