//! Extra lines before the vehicle goes back: each wants its answer, and the list is where it is given.

use leptos::prelude::*;

use super::{Asking, question};
use crate::parts::wide_done::WideDone;
use crate::screen::Screen;
use crate::words::t;

pub(super) fn view(asking: Asking) -> AnyView {
    let session = asking.session;
    let heading = question(&asking);
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            <p>{t("ui.lines.open")}</p>
        </div>
        <WideDone
            words=t("ui.lines.go")
            waits=false
            on_done=Callback::new(move |()| session.go(Screen::Lines))
        />
    }
    .into_any()
}
