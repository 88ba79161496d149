//! The app's state and everything that changes it.
//!
//! Lives at the root, above every screen. A change goes one way: ask what holds it, write the
//! line, keep it in the store, and only when the store says that it is on the medium fold it into
//! the card that the screens show. One action at a time; a second press meanwhile does nothing.

use std::sync::Arc;
use std::time::Duration;

use chrono::{DateTime, TimeDelta, Utc};
use job::act::{self, Draft, Refusal, Setup};
use job::bring::BringList;
use job::card::{Card, fold};
use job::cardfile::{self, Photos};
use job::changes::{self, Change};
use job::event::{Answer, FactValue, Item, Role};
use job::extra::ExtraLine;
use job::group::{self, Member};
use job::hold;
use job::id::{AskId, CardId, FactId, PersonId, Place, StepId, TabletId};
use job::judge::Units;
use job::line::{Line, LineRef, Sha, Stamp};
use job::procedures::Procedures;
use job::shop::{self, ShopSheet};
use job::summary::{Summary, summary};
use job::trail::{TakenIn, Trail};
use job::words::{Arg, Words};
use job::wrench;
use leptos::prelude::*;
use practice::book::{self, Book, Entry};
use practice::run::Run;
use practice::seed::Seed;
use store::browser::{BrowserPractice, BrowserStore};
use store::{PracticeHome, Row, StoreError, TrailStore, Which, WriterNumber};
use wasm_bindgen_futures::spawn_local;

use crate::device;
use crate::photo::Shrunk;
use crate::screen::Screen;
use crate::settings::Settings;
use crate::words::{learn, t};
use crate::writer::{self, Asking};

/// Version of the app, as it stands in the first line of a card.
pub(crate) const APP: &str = env!("CARGO_PKG_VERSION");

/// How long the tick of a save stays on the screen.
const TICK_SHOWN: Duration = Duration::from_millis(2_500);

/// How long after a touch the checks of other cards wait longer, and how long they wait between two.
const BUSY_HANDS: TimeDelta = TimeDelta::seconds(1);
const PAUSE: Duration = Duration::from_millis(20);
const PAUSE_LONG: Duration = Duration::from_millis(200);

/// A card and the lines it was folded from.
#[derive(Clone)]
pub(crate) struct Open {
    pub(crate) trail: Arc<Trail>,
    pub(crate) card: Arc<Card>,
}

/// The open card as a file.
pub(crate) struct CardFile {
    pub(crate) name: String,
    pub(crate) text: String,
    /// Photos of the card that are not in it: not on this tablet, or without room.
    pub(crate) left_out: usize,
}

/// The photos that the lines of a card name, large and small.
fn shas_of(card: &Card) -> Vec<Sha> {
    let photos = card.extra_lines().iter().flat_map(ExtraLine::photos);
    photos.flat_map(|(photo, small)| [photo, small]).collect()
}

/// Where a save is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Saving {
    Idle,
    Busy,
    /// On the medium. The number grows with each save, so that the screen can flash.
    Saved(u32),
    /// Not kept, and why. What was typed is still on the screen.
    Failed(Words),
}

/// Whether this tab may write.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Writing {
    Asking,
    Here,
    /// Another tab of this tablet writes; this one reads.
    Elsewhere,
}

/// Handle to the state. Cheap to copy; every screen gets it from the context.
#[derive(Clone, Copy)]
pub(crate) struct Session {
    pub(crate) screen: RwSignal<Screen>,
    pub(crate) settings: RwSignal<Settings>,
    /// Shop or practice: which of the two homes is open.
    pub(crate) home: RwSignal<Which>,
    pub(crate) cards: RwSignal<Vec<Summary>>,
    pub(crate) open: RwSignal<Option<Open>>,
    pub(crate) shop: RwSignal<Arc<ShopSheet>>,
    pub(crate) me: RwSignal<Option<PersonId>>,
    pub(crate) saving: RwSignal<Saving>,
    pub(crate) writing: RwSignal<Writing>,
    /// Whether the browser promised not to clear the store; `None` until it answered.
    pub(crate) lasting: RwSignal<Option<bool>>,
    /// The wheel end that the runner was last at, since the app was started.
    pub(crate) at_end: RwSignal<Option<Place>>,
    /// When the screen was last touched.
    pub(crate) touched: RwSignal<DateTime<Utc>>,
    /// A step that is opened to be done once more, with the place it is done at.
    pub(crate) again: RwSignal<Option<(Place, StepId)>>,
    /// Asks that were taken out of a group, to be asked alone.
    pub(crate) alone: RwSignal<Vec<Member>>,
    /// The book of the practice bay; empty in the shop.
    pub(crate) book: RwSignal<Arc<Book>>,
    inner: StoredValue<Inner, LocalStorage>,
}

struct Inner {
    procedures: Procedures,
    bring: BringList,
    store: BrowserStore,
    practice: BrowserPractice,
    real: BrowserStore,
    tablet: TabletId,
    writer: Option<WriterNumber>,
    shop: Trail,
    saves: u32,
    /// The run that was looked at last.
    run: Option<Arc<Run>>,
}

/// Who does something at a wheel end has it from then on. A foreman's look takes nothing.
fn takes_end(
    card: &Card,
    me: &PersonId,
    at: Place,
    answer: &Answer,
) -> Result<Vec<Draft>, Refusal> {
    let looks = matches!(answer, Answer::Look { .. });
    if looks || !matches!(at, Place::End(..)) || card.has(at) == Some(me) {
        return Ok(Vec::new());
    }
    Ok(vec![act::take_end(card, me, at)?])
}

/// Why the app could not start. Shown on a plain page.
pub(crate) enum CannotStart {
    /// A file that comes with the app can't be read.
    Shipped(String),
    Store(StoreError),
}

impl Session {
    /// Opens both homes, the shop sheet and the cards list. Call once, at the root.
    pub(crate) async fn start(procedure: &str, bring: &str) -> Result<Self, CannotStart> {
        let procedures = Procedures::read([], procedure)
            .map_err(|fault| CannotStart::Shipped(fault.to_string()))?;
        let bring =
            BringList::read(bring).map_err(|fault| CannotStart::Shipped(fault.to_string()))?;
        let settings = Settings::load();
        let real = BrowserStore::open(Which::Shop)
            .await
            .map_err(CannotStart::Store)?;
        let practice = BrowserPractice::open().await.map_err(CannotStart::Store)?;
        let home = if settings.practice {
            Which::Practice
        } else {
            Which::Shop
        };
        let store = if settings.practice {
            practice.store()
        } else {
            real.clone()
        };
        let fresh = TabletId::new(device::new_id('t'));
        let tablet = store.tablet_or(fresh).await.map_err(CannotStart::Store)?;
        let me = settings.last_person.clone();
        let session = Self {
            screen: RwSignal::new(Screen::Start),
            settings: RwSignal::new(settings),
            home: RwSignal::new(home),
            cards: RwSignal::new(Vec::new()),
            open: RwSignal::new(None),
            shop: RwSignal::new(Arc::new(ShopSheet::default())),
            me: RwSignal::new(me),
            saving: RwSignal::new(Saving::Idle),
            writing: RwSignal::new(Writing::Asking),
            lasting: RwSignal::new(None),
            at_end: RwSignal::new(None),
            touched: RwSignal::new(device::now().utc),
            again: RwSignal::new(None),
            alone: RwSignal::new(Vec::new()),
            book: RwSignal::new(Arc::new(Book::default())),
            inner: StoredValue::new_local(Inner {
                procedures,
                bring,
                store,
                practice,
                real,
                tablet,
                writer: None,
                shop: Trail::new(sheet_of(home)),
                saves: 0,
                run: None,
            }),
        };
        session.read_home().await.map_err(CannotStart::Store)?;
        session.ask_to_write(Asking::IfFree);
        Ok(session)
    }

    fn store(self) -> BrowserStore {
        self.inner.with_value(|inner| inner.store.clone())
    }

    /// The name this tablet writes under, in the home that is open.
    pub(crate) fn tablet(self) -> TabletId {
        self.inner.with_value(|inner| inner.tablet.clone())
    }

    /// The procedures that this app carries.
    pub(crate) fn procedures(self) -> Procedures {
        self.inner.with_value(|inner| inner.procedures.clone())
    }

    /// What is brought for the procedure that this app carries.
    pub(crate) fn with_bring_list<T>(self, ask: impl FnOnce(&BringList) -> T) -> T {
        self.inner.with_value(|inner| ask(&inner.bring))
    }

    /// Units that figures are shown in.
    pub(crate) fn units(self) -> Units {
        self.settings.with(|settings| settings.units.units())
    }

    /// The card of a trail. The steps of the shop's own that it asks can be told from here on.
    fn fold(self, trail: &Trail) -> Card {
        let card = self
            .inner
            .with_value(|inner| fold(trail, &inner.procedures));
        learn(&card.shop_steps);
        card
    }

    /// Reads the shop sheet and the cards list of the home that is open.
    async fn read_home(self) -> Result<(), StoreError> {
        let store = self.store();
        let id = sheet_of(self.home.get_untracked());
        let rows = store.read(&id).await?;
        let trail = Trail::read(id, rows.iter().map(|row| row.text.as_str()));
        let sheet = shop::fold(&trail);
        // A name that the sheet no longer has can't go on working.
        if self.me.with_untracked(|me| {
            me.as_ref()
                .is_some_and(|me| !sheet.person(me).is_some_and(|person| person.here))
        }) {
            self.me.set(None);
        }
        self.shop.set(Arc::new(sheet));
        self.inner.update_value(|inner| inner.shop = trail);
        let book = match self.home.get_untracked() {
            Which::Shop => Book::default(),
            Which::Practice => {
                let rows = store.read(&book::card_id()).await?;
                Book::read(rows.iter().map(|row| row.text.as_str()))
            }
        };
        self.book.set(Arc::new(book));
        self.read_cards().await
    }

    async fn read_cards(self) -> Result<(), StoreError> {
        let store = self.store();
        let mut cards = Vec::new();
        for row in store.cards().await? {
            if shop::is_sheet(&row.card) || row.card == book::card_id() {
                continue;
            }
            match serde_json::from_str::<Summary>(&row.text) {
                Ok(summary) => cards.push(summary),
                // A row that can't be read is derived anew: the lines are what counts.
                Err(_unreadable) => cards.push(summary(&self.read_card(&row.card).await?.card)),
            }
        }
        cards.sort_by_key(|card| std::cmp::Reverse(card.last));
        self.cards.set(cards);
        Ok(())
    }

    async fn read_card(self, card: &CardId) -> Result<Open, StoreError> {
        let rows = self.store().read(card).await?;
        let trail = Trail::read(card.clone(), rows.iter().map(|row| row.text.as_str()));
        let folded = self.fold(&trail);
        Ok(Open {
            trail: Arc::new(trail),
            card: Arc::new(folded),
        })
    }

    /// Asks to be the tab that writes.
    pub(crate) fn ask_to_write(self, asking: Asking) {
        let got = move |ours: bool| {
            if ours {
                spawn_local(async move { self.claim().await });
            } else {
                self.writing.set(Writing::Elsewhere);
            }
        };
        writer::ask(asking, got, move || self.writing.set(Writing::Elsewhere));
    }

    async fn claim(self) {
        match self.store().claim_writer().await {
            Ok(writer) => {
                // What the other tab wrote last is read before anything is added to it.
                let read = self.read_home().await;
                if read.is_ok() {
                    self.inner.update_value(|inner| inner.writer = Some(writer));
                }
                if let Some(card) = self
                    .open
                    .with_untracked(|open| open.as_ref().map(|open| open.card.id.clone()))
                {
                    self.open_card(card, None).await;
                }
                match read {
                    Ok(()) => self.writing.set(Writing::Here),
                    Err(error) => self.saving.set(Saving::Failed(store_words(&error))),
                }
            }
            Err(error) => self.saving.set(Saving::Failed(store_words(&error))),
        }
    }

    /// Goes to a screen, and puts it into the address.
    pub(crate) fn go(self, screen: Screen) {
        if let Some(window) = web_sys::window() {
            let fragment = screen.fragment();
            if window.location().set_hash(&fragment).is_err() {
                leptos::logging::warn!("address not changed");
            }
        }
        self.screen.set(screen);
    }

    /// Opens a card from the store, checks its chain, and goes to `then`, if anywhere.
    pub(crate) async fn open_card(self, card: CardId, then: Option<Screen>) {
        let home = self.home.get_untracked();
        match self.read_card(&card).await {
            // Read from a home that was left meanwhile.
            Ok(_) if self.home.get_untracked() != home => {}
            Ok(open) => {
                self.remember(card);
                // Where one was on another card says nothing here.
                if self.open.with_untracked(|was| {
                    was.as_ref().is_none_or(|was| was.card.id != open.card.id)
                }) {
                    self.at_end.set(None);
                    self.alone.set(Vec::new());
                }
                self.open.set(Some(open));
                if let Some(then) = then {
                    self.go(then);
                }
            }
            Err(error) => self.saving.set(Saving::Failed(store_words(&error))),
        }
    }

    /// Notes which card is open, for the next start.
    fn remember(self, card: CardId) {
        self.settings
            .update(|settings| settings.last_card = Some(card));
        self.settings.with_untracked(Settings::keep);
    }

    /// Checks the chains of all cards, in idle time, and marks those that are not whole. A row
    /// that says something else than its card, or less than this app would, is kept anew.
    pub(crate) async fn check_all(self) {
        let home = self.home.get_untracked();
        let rows = self.cards.get_untracked();
        // Those of the daily list first: somebody may be looking at them.
        let (away, daily): (Vec<_>, Vec<_>) = rows.into_iter().partition(|row| row.put_away);
        for row in daily.into_iter().chain(away) {
            self.rest().await;
            if self.home.get_untracked() != home {
                return;
            }
            // A row without a line is left as it is: nothing is better known than what it says.
            if let Ok(open) = self.read_card(&row.card).await
                && open.trail.all().next().is_some()
            {
                self.keep_checked(&row, summary(&open.card));
            }
        }
    }

    /// Leaves the tablet to whoever is touching it.
    async fn rest(self) {
        let untouched = device::now()
            .utc
            .signed_duration_since(self.touched.get_untracked());
        let pause = if untouched.abs() < BUSY_HANDS {
            PAUSE_LONG
        } else {
            PAUSE
        };
        device::pause(pause).await;
    }

    /// Puts a row that was derived anew in the place of the one it was derived for. What was
    /// written meanwhile has its own row, and so has what is being written now.
    fn keep_checked(self, before: &Summary, checked: Summary) {
        let as_before = self.cards.with_untracked(|cards| cards.contains(before));
        let busy = self.saving.get_untracked() == Saving::Busy;
        if *before == checked || !as_before || busy {
            return;
        }
        if let Some(writer) = self.inner.with_value(|inner| inner.writer) {
            let text = serde_json::to_string(&checked).unwrap_or_default();
            let kept = self.store().put_summary(&checked.card, &text, writer);
            spawn_local(async move {
                if let Err(error) = kept.await {
                    // It is derived again at the next start: nothing of the card is lost.
                    leptos::logging::warn!("row not kept: {error}");
                }
            });
        }
        self.cards.update(|cards| {
            if let Some(row) = cards.iter_mut().find(|row| row.card == checked.card) {
                *row = checked;
            }
        });
    }

    /// True if a press can be taken now.
    pub(crate) fn can_write(self) -> bool {
        self.writing.get() == Writing::Here && self.saving.with(|saving| *saving != Saving::Busy)
    }

    /// Does something on the open card. `Err` says what stands against it; nothing was changed.
    ///
    /// `after` runs once the lines are on the medium and folded.
    pub(crate) fn act(
        self,
        make: impl FnOnce(&Card, &PersonId, Stamp, &Units) -> Result<Vec<Draft>, Refusal>,
        after: impl FnOnce(Self) + 'static,
    ) -> Result<(), Words> {
        self.may_write()?;
        let me = self
            .me
            .get_untracked()
            .ok_or_else(|| Words::plain("hold.sign-on"))?;
        self.act_as(&me, make, after)
    }

    /// The same in the name of somebody else who is there.
    pub(crate) fn act_as(
        self,
        me: &PersonId,
        make: impl FnOnce(&Card, &PersonId, Stamp, &Units) -> Result<Vec<Draft>, Refusal>,
        after: impl FnOnce(Self) + 'static,
    ) -> Result<(), Words> {
        self.may_write()?;
        let open = self
            .open
            .get_untracked()
            .ok_or_else(|| Words::plain("ui.no-card"))?;
        let at = device::now();
        let units = self
            .settings
            .with_untracked(|settings| settings.units.units());
        let drafts =
            make(&open.card, me, at, &units).map_err(|refusal| refusal.words(&open.card))?;
        if drafts.is_empty() {
            return Ok(());
        }
        let lines = open.trail.write(&self.tablet(), me, at, drafts);
        self.keep(open.trail, lines, after);
        Ok(())
    }

    /// What giving a fact would change on the open card. Nothing is kept. `Err` says what stands
    /// against it, as [`Session::act`] would.
    pub(crate) fn would_change(
        self,
        fact: &FactId,
        at: Place,
        value: FactValue,
    ) -> Result<Vec<Change>, Words> {
        self.changes_of(|card, me| act::set_fact(card, me, at, fact, value))
    }

    /// What the open card would change to with the shop's values as they are on the sheet now.
    pub(crate) fn shop_would_change(self) -> Result<Vec<Change>, Words> {
        let sheet = self.shop.get_untracked();
        self.changes_of(|card, me| shop::take_values(card, me, &sheet))
    }

    fn changes_of(
        self,
        draft: impl FnOnce(&Card, &PersonId) -> Result<Draft, Refusal>,
    ) -> Result<Vec<Change>, Words> {
        self.may_write()?;
        let open = self
            .open
            .get_untracked()
            .ok_or_else(|| Words::plain("ui.no-card"))?;
        let me = self
            .me
            .get_untracked()
            .ok_or_else(|| Words::plain("hold.sign-on"))?;
        let draft = draft(&open.card, &me).map_err(|refusal| refusal.words(&open.card))?;
        Ok(self.inner.with_value(|inner| {
            let [before, after] = changes::of_draft(
                &open.trail,
                &inner.procedures,
                &inner.tablet,
                &me,
                device::now(),
                draft,
            );
            let mut all = changes::changes(&before, &after);
            self.shop.with_untracked(|sheet| {
                all.extend(changes::of_bring_list(&before, &after, sheet, &inner.bring));
            });
            all
        }))
    }

    /// Answers an ask of the open card.
    #[expect(
        clippy::too_many_arguments,
        reason = "an answer has a place, a question, a voice and a sequel"
    )]
    pub(crate) fn answer(
        self,
        at: Place,
        step: &StepId,
        ask: &AskId,
        item: Item,
        answer: Answer,
        beside: Option<PersonId>,
        after: impl FnOnce(Self) + 'static,
    ) -> Result<(), Words> {
        self.act(
            |card, me, now, units| {
                let proof = hold::may_take(card, me, at, step, ask, item, now)?.beside(beside);
                let mut drafts = takes_end(card, me, at, &answer)?;
                drafts.extend(self.with_wrench(card, me, at, (step, ask), now, units)?);
                drafts.extend(act::take_with_line(card, proof, answer, units)?);
                Ok(drafts)
            },
            after,
        )
    }

    /// The shop's only wrench, where this answer is the first that is given with it.
    fn with_wrench(
        self,
        card: &Card,
        me: &PersonId,
        at: Place,
        (step, ask): (&StepId, &AskId),
        now: Stamp,
        units: &Units,
    ) -> Result<Option<Draft>, Refusal> {
        let found = card
            .procedure
            .as_deref()
            .and_then(|procedure| Some((procedure.step(step)?, procedure.ask(step, ask)?)));
        let Some((step, ask)) = found else {
            return Ok(None);
        };
        self.shop
            .with_untracked(|sheet| wrench::with_pass(card, sheet, me, step, ask, at, now, units))
    }

    /// Answers several asks of one wheel end in one action: all of it is kept, or none.
    pub(crate) fn answer_group(
        self,
        at: Place,
        answers: &[(Member, Answer)],
        after: impl FnOnce(Self) + 'static,
    ) -> Result<(), Words> {
        self.may_write()?;
        let open = self
            .open
            .get_untracked()
            .ok_or_else(|| Words::plain("ui.no-card"))?;
        let me = self
            .me
            .get_untracked()
            .ok_or_else(|| Words::plain("hold.sign-on"))?;
        let units = self
            .settings
            .with_untracked(|settings| settings.units.units());
        let Some((_, answer)) = answers.first() else {
            return Ok(());
        };
        let first =
            takes_end(&open.card, &me, at, answer).map_err(|refusal| refusal.words(&open.card))?;
        let lines = self.inner.with_value(|inner| {
            group::write(
                &open.trail,
                &inner.procedures,
                &inner.tablet,
                &me,
                device::now(),
                &units,
                first,
                answers,
            )
        })?;
        self.keep(open.trail, lines, after);
        Ok(())
    }

    /// Keeps a photo of an extra line: its bytes first, then the line that names them.
    pub(crate) fn keep_photo(self, line: &LineRef, shrunk: Shrunk) -> Result<(), Words> {
        self.may_write()?;
        let card = self
            .open
            .with_untracked(|open| open.as_ref().map(|open| open.card.id.clone()))
            .ok_or_else(|| Words::plain("ui.no-card"))?;
        let writer = self
            .inner
            .with_value(|inner| inner.writer)
            .ok_or_else(|| Words::plain("store.other-tab"))?;
        let Shrunk { photo, small } = shrunk;
        let shas = (Sha::of(&photo), Sha::of(&small));
        self.saving.set(Saving::Busy);
        let store = self.store();
        let saves = [(shas.0, photo), (shas.1, small)]
            .map(|(sha, bytes)| store.keep_photo(&card, &sha.to_string(), &bytes, writer));
        let line = line.clone();
        spawn_local(async move {
            for save in saves {
                if let Err(error) = save.await {
                    return self.saving.set(Saving::Failed(store_words(&error)));
                }
            }
            self.saving.set(Saving::Idle);
            let noted = self.act(
                |card, me, _, _| Ok(vec![act::photo(card, me, &line, shas)?]),
                |_| {},
            );
            if let Err(words) = noted {
                self.saving.set(Saving::Failed(words));
            }
        });
        Ok(())
    }

    /// Keeps the photos that came with a card: those that its lines name.
    async fn keep_photos(self, trail: &Trail, mut photos: Photos) -> Result<(), Words> {
        if photos.is_empty() {
            return Ok(());
        }
        let writer = self
            .inner
            .with_value(|inner| inner.writer)
            .ok_or_else(|| Words::plain("store.other-tab"))?;
        let card = self.fold(trail);
        self.saving.set(Saving::Busy);
        let mut kept = Ok(());
        for sha in shas_of(&card) {
            if let (Ok(()), Some(bytes)) = (&kept, photos.remove(&sha)) {
                let saving = self
                    .store()
                    .keep_photo(&card.id, &sha.to_string(), &bytes, writer);
                kept = saving.await.map_err(|error| store_words(&error));
            }
        }
        self.saving.set(Saving::Idle);
        kept
    }

    /// The bytes of a photo that is kept here.
    pub(crate) async fn photo(self, sha: &Sha) -> Result<Option<Vec<u8>>, StoreError> {
        self.store().photo(&sha.to_string()).await
    }

    /// Takes back a line; without a reason if it is fresh and the person's own.
    pub(crate) fn strike(self, line: &LineRef, why: Option<&str>) -> Result<(), Words> {
        self.act(
            |card, me, now, _| {
                let proof = act::may_strike(card, me, line, now)?;
                act::strike_with_line(card, proof, why)
            },
            |_| {},
        )
    }

    /// Opens a new card with the person at hand signed on. `Err` lists what is wanting.
    pub(crate) fn new_card(self, setup: &Setup) -> Result<(), Vec<Words>> {
        self.may_write().map_err(|words| vec![words])?;
        if !device::is_secure() {
            return Err(vec![Words::plain("ui.plain-http.no-card")]);
        }
        let me = self.me.get_untracked();
        let sheet = self.shop.get_untracked();
        let person = me
            .as_ref()
            .and_then(|me| sheet.person(me).map(|person| (me, person)));
        let opened = act::open_card(self.procedures().newest(), APP, setup);
        let Some((me, person)) = person else {
            let mut wanting = opened.err().unwrap_or_default();
            wanting.insert(0, Words::plain("ui.who-first"));
            return Err(wanting);
        };
        let mut drafts = opened?;
        drafts.push(act::sign_on(me, &person.name, person.role));
        let taken = shop::for_new_card(&sheet, &setup.in_hand);
        drafts.extend(taken.map_err(|words| vec![words])?);
        let trail = Trail::new(self.new_card_id());
        let lines = trail.write(&self.tablet(), me, device::now(), drafts);
        let id = trail.card().clone();
        self.keep(Arc::new(trail), lines, move |session| {
            session.remember(id);
            session.go(Screen::Map);
        });
        Ok(())
    }

    /// The run that the open card is, and whether it is over; `None` for any other card.
    pub(crate) fn run(self) -> Option<(Arc<Run>, bool)> {
        let card = self
            .open
            .with(|open| open.as_ref().map(|open| open.card.id.clone()))?;
        let (seed, is_marked) = self.book.with(|book| {
            let run = book.run(&card)?;
            Some((run.seed, run.is_marked))
        })?;
        Some((self.run_of(seed), is_marked))
    }

    /// A seed's run, made once.
    fn run_of(self, seed: Seed) -> Arc<Run> {
        let known = self.inner.with_value(|inner| inner.run.clone());
        if let Some(run) = known.filter(|run| run.axle.seed == seed) {
            return run;
        }
        let run = Arc::new(Run::of(seed));
        self.inner
            .update_value(|inner| inner.run = Some(run.clone()));
        run
    }

    /// Opens a practice card for a seed, and writes into the book who walks it.
    pub(crate) fn begin_run(self, seed: Seed) -> Result<(), Words> {
        self.may_write()?;
        if self.home.get_untracked() != Which::Practice {
            return Err(Words::plain("ui.drills.only-practice"));
        }
        let me = self
            .me
            .get_untracked()
            .ok_or_else(|| Words::plain("ui.who-first"))?;
        let sheet = self.shop.get_untracked();
        let person = sheet
            .person(&me)
            .ok_or_else(|| Words::plain("ui.who-first"))?;
        let run = self.run_of(seed);
        let opened = act::open_card(self.procedures().newest(), APP, &run.setup());
        let mut drafts = opened.map_err(|wanting| {
            let first = wanting.into_iter().next();
            first.unwrap_or_else(|| Words::plain("refuse.stale"))
        })?;
        drafts.extend(on_a_run(&me, &person.name, person.role));
        let (tablet, now) = (self.tablet(), device::now());
        let trail = Trail::new(self.new_card_id());
        let mut lines = trail.write(&tablet, &me, now, drafts);
        let mut begun = trail.clone();
        for line in &lines {
            begun.take_in(line.clone());
        }
        let card = self.fold(&begun);
        let given = run.facts_given(&card, &me);
        lines.extend(begun.write(&tablet, &me, now, given));
        let entry = Entry::Begun {
            card: card.id.clone(),
            seed,
            who: me,
            on: device::today(),
        };
        self.keep(Arc::new(trail), lines, move |session| {
            session.remember(card.id.clone());
            let noted = session.note(vec![entry], |session| session.go(Screen::Map));
            if let Err(words) = noted {
                session.saving.set(Saving::Failed(words));
            }
        });
        Ok(())
    }

    /// Writes into the book of the practice bay; nowhere else is anything of it kept.
    pub(crate) fn note(
        self,
        entries: Vec<Entry>,
        after: impl FnOnce(Self) + 'static,
    ) -> Result<(), Words> {
        self.may_write()?;
        let Some(writer) = self.inner.with_value(|inner| inner.writer) else {
            return Err(Words::plain("store.other-tab"));
        };
        let book = self.book.get_untracked();
        let tablet = self.tablet();
        let first = u32::try_from(book.lines()).unwrap_or(u32::MAX);
        let rows: Vec<Row> = entries
            .iter()
            .zip(first.saturating_add(1)..)
            .map(|(entry, n)| Row {
                tablet: tablet.clone(),
                n,
                text: entry.line(),
            })
            .collect();
        self.saving.set(Saving::Busy);
        let saved = self.store().append(&book::card_id(), &rows, "", writer);
        spawn_local(async move {
            match saved.await {
                Ok(()) => {
                    let book = entries
                        .into_iter()
                        .fold(Book::clone(&book), |book, entry| book.with(entry));
                    self.book.set(Arc::new(book));
                    self.tick();
                    after(self);
                }
                Err(error) => self.saving.set(Saving::Failed(store_words(&error))),
            }
        });
        Ok(())
    }

    /// An id that nobody has, of the home that is open.
    fn new_card_id(self) -> CardId {
        let id = device::new_id('c');
        match self.home.get_untracked() {
            Which::Shop => CardId::new(id),
            Which::Practice => CardId::of_practice(&id),
        }
    }

    /// Makes the person with this id the one who writes, on the open card too.
    pub(crate) fn change_name(self, person: &PersonId) -> Result<(), Words> {
        let sheet = self.shop.get_untracked();
        let listed = sheet
            .person(person)
            .ok_or_else(|| Words::plain("shop.person-unknown"))?;
        self.me.set(Some(person.clone()));
        self.settings
            .update(|settings| settings.last_person = Some(person.clone()));
        self.settings.with_untracked(Settings::keep);
        let is_run = untrack(|| self.run().is_some());
        let signed = self.open.with_untracked(|open| {
            open.as_ref().map(|open| {
                open.card.people.get(person).is_some_and(|signed| {
                    // A run goes on in the role that it was begun in.
                    let same_role = is_run || signed.role == listed.role;
                    signed.on && signed.name == listed.name && same_role
                })
            })
        });
        if signed == Some(false) {
            let drafts = if is_run {
                on_a_run(person, &listed.name, listed.role)
            } else {
                vec![act::sign_on(person, &listed.name, listed.role)]
            };
            self.sign_on(person, drafts)?;
        }
        Ok(())
    }

    /// The made-up person who stands beside an apprentice on the run at hand.
    pub(crate) fn beside_on_a_run(self) -> Option<PersonId> {
        let me = self.me.get()?;
        let (_, is_over) = self.run()?;
        self.open.with(|open| {
            if is_over {
                return None;
            }
            let people = &open.as_ref()?.card.people;
            let is_apprentice = people.get(&me)?.role == Role::Apprentice;
            let beside = PersonId::from(BESIDE);
            (is_apprentice && people.get(&beside)?.on).then_some(beside)
        })
    }

    fn sign_on(self, person: &PersonId, drafts: Vec<Draft>) -> Result<(), Words> {
        self.may_write()?;
        let open = self
            .open
            .get_untracked()
            .ok_or_else(|| Words::plain("ui.no-card"))?;
        if let Some(hold) = hold::of_trail(&open.card) {
            return Err(hold.words(&open.card));
        }
        let (tablet, now) = (self.tablet(), device::now());
        let lines = open.trail.write(&tablet, person, now, drafts);
        self.keep(open.trail, lines, |_| {});
        Ok(())
    }

    /// Changes the shop sheet.
    pub(crate) fn change_shop(
        self,
        make: impl FnOnce(&ShopSheet) -> Result<Draft, Refusal>,
        after: impl FnOnce(Self) + 'static,
    ) -> Result<(), Words> {
        self.may_write()?;
        let sheet = self.shop.get_untracked();
        let draft = make(&sheet).map_err(shop_words)?;
        let who = self
            .me
            .get_untracked()
            .unwrap_or_else(|| PersonId::from("tablet"));
        let trail = self.inner.with_value(|inner| inner.shop.clone());
        let lines = trail.write(&self.tablet(), &who, device::now(), vec![draft]);
        self.keep(Arc::new(trail), lines, after);
        Ok(())
    }

    fn may_write(self) -> Result<(), Words> {
        let has_number = self.inner.with_value(|inner| inner.writer.is_some());
        match (self.writing.get_untracked(), self.saving.get_untracked()) {
            (Writing::Here, _) if !has_number => Err(Words::plain("ui.still-saving")),
            (_, Saving::Busy) => Err(Words::plain("ui.still-saving")),
            (Writing::Here, _) => Ok(()),
            (Writing::Asking | Writing::Elsewhere, _) => Err(Words::plain("ui.other-tab.writes")),
        }
    }

    /// Keeps lines, then folds them in. The only way into the store.
    fn keep(self, trail: Arc<Trail>, lines: Vec<Line>, after: impl FnOnce(Self) + 'static) {
        let Some(writer) = self.inner.with_value(|inner| inner.writer) else {
            self.saving
                .set(Saving::Failed(Words::plain("store.other-tab")));
            return;
        };
        self.saving.set(Saving::Busy);
        let mut trail = Arc::unwrap_or_clone(trail);
        for line in &lines {
            trail.take_in(line.clone());
        }
        let is_shop = shop::is_sheet(trail.card());
        let folded = (!is_shop).then(|| self.fold(&trail));
        let row = folded.as_ref().map(summary);
        let text = row
            .as_ref()
            .map(|row| serde_json::to_string(row).unwrap_or_default())
            .unwrap_or_default();
        let rows: Vec<Row> = lines
            .iter()
            .map(|line| Row {
                tablet: line.tablet.clone(),
                n: line.n,
                text: line.text().to_owned(),
            })
            .collect();
        // The save starts here and now; nothing that happens to a screen can stop it.
        let saved = self.store().append(trail.card(), &rows, &text, writer);
        spawn_local(async move {
            match saved.await {
                Ok(()) => {
                    if let (Some(card), Some(row)) = (folded, row) {
                        self.cards.update(|cards| {
                            cards.retain(|other| other.card != row.card);
                            cards.insert(0, row);
                        });
                        self.open.set(Some(Open {
                            trail: Arc::new(trail),
                            card: Arc::new(card),
                        }));
                    } else {
                        self.shop.set(Arc::new(shop::fold(&trail)));
                        self.inner.update_value(|inner| inner.shop = trail);
                    }
                    self.tick();
                    after(self);
                    if self.lasting.get_untracked().is_none() {
                        self.lasting
                            .set(Some(device::ask_to_persist().await.unwrap_or(false)));
                    }
                }
                Err(error) => {
                    if matches!(
                        error,
                        StoreError::NotTheWriter { .. } | StoreError::Taken { .. }
                    ) {
                        self.writing.set(Writing::Elsewhere);
                    }
                    self.saving.set(Saving::Failed(store_words(&error)));
                }
            }
        });
    }

    /// Shows the tick for a while, over a change of screen too.
    fn tick(self) {
        self.inner.update_value(|inner| inner.saves += 1);
        let saved = Saving::Saved(self.inner.with_value(|inner| inner.saves));
        self.saving.set(saved.clone());
        let rest = move || {
            if self
                .saving
                .try_get_untracked()
                .is_some_and(|now| now == saved)
            {
                self.saving.set(Saving::Idle);
            }
        };
        set_timeout(rest, TICK_SHOWN);
    }

    /// The open card as a file, with the photos that are on this tablet.
    pub(crate) async fn card_file(self) -> Option<CardFile> {
        let open = self.open.try_get_untracked()??;
        let mut photos = Photos::new();
        let mut left_out = 0;
        for sha in shas_of(&open.card) {
            match self.photo(&sha).await {
                Ok(Some(bytes)) if Sha::of(&bytes) == sha => {
                    photos.insert(sha, bytes);
                }
                Ok(_) | Err(_) => left_out += 1,
            }
        }
        let unit: String = summary(&open.card)
            .unit
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
            .take(40)
            .collect();
        let day = device::now().utc.format("%Y-%m-%d").to_string();
        let written = cardfile::write(&open.trail, &photos);
        Some(CardFile {
            name: format!("chock-to-chock-{unit}-{day}.txt"),
            text: written.text,
            left_out: left_out + written.left_out,
        })
    }

    /// The shop sheet as a file: its name and its text. Nothing as long as there is nothing on it.
    pub(crate) fn shop_file(self) -> Option<(String, String)> {
        self.inner.with_value(|inner| {
            inner.shop.all().next()?;
            let day = device::now().utc.format("%Y-%m-%d").to_string();
            Some((
                format!("chock-to-chock-shop-sheet-{day}.txt"),
                cardfile::write(&inner.shop, &Photos::new()).text,
            ))
        })
    }

    /// Takes the file of a card or of a shop sheet in: all of it or nothing. `then` gets what became
    /// of it: how many lines are new, and where they are seen.
    pub(crate) fn take_file_in(
        self,
        bytes: &[u8],
        then: impl FnOnce(Self, Result<(usize, Screen), Words>) + 'static,
    ) {
        let read = self
            .may_write()
            .and_then(|()| cardfile::read(bytes).map_err(|fault| fault.words()));
        let (theirs, photos) = match read {
            Ok(read) => read,
            Err(words) => return then(self, Err(words)),
        };
        // What is of the practice bay stays there, and nothing real gets in among it.
        let home = self.home.get_untracked();
        if theirs.card().is_practice() != (home == Which::Practice) {
            return then(
                self,
                Err(Words::plain(match home {
                    Which::Shop => "file.practice",
                    Which::Practice => "file.not-practice",
                })),
            );
        }
        let is_shop = shop::is_sheet(theirs.card());
        let screen = if is_shop { Screen::Shop } else { Screen::Map };
        self.saving.set(Saving::Busy);
        spawn_local(async move {
            let read = self.read_card(theirs.card()).await;
            self.saving.set(Saving::Idle);
            let mut trail = match read
                .map_err(|error| store_words(&error))
                .and_then(|open| self.may_write().map(|()| open))
            {
                Ok(open) => Arc::unwrap_or_clone(open.trail),
                Err(words) => return then(self, Err(words)),
            };
            let before = trail.clone();
            let mut new = Vec::new();
            for line in theirs.all() {
                match trail.take_in(line.clone()) {
                    TakenIn::New => new.push(line.clone()),
                    TakenIn::AlreadyThere => {}
                    TakenIn::Fork | TakenIn::OtherCard => {
                        let words =
                            Words::with("file.fork", [("number", Arg::Text(line.n.to_string()))]);
                        return then(self, Err(words));
                    }
                }
            }
            if let Err(words) = self.keep_photos(&trail, photos).await {
                return then(self, Err(words));
            }
            if new.is_empty() {
                if !is_shop {
                    self.open_card(before.card().clone(), None).await;
                }
                return then(self, Ok((0, screen)));
            }
            let count = new.len();
            self.keep(Arc::new(before), new, move |session| {
                then(session, Ok((count, screen)))
            });
        });
    }

    /// Changes over to the other home. What is open is left as it is saved.
    ///
    /// Waits for nobody: while something is being saved it does nothing, and while it goes on nothing
    /// can be saved.
    pub(crate) async fn change_home(self, home: Which) {
        if self.saving.get_untracked() == Saving::Busy {
            return;
        }
        self.saving.set(Saving::Busy);
        self.inner.update_value(|inner| {
            inner.store = match home {
                Which::Shop => inner.real.clone(),
                Which::Practice => inner.practice.store(),
            };
            inner.writer = None;
        });
        self.open.set(None);
        self.me.set(None);
        self.home.set(home);
        self.settings.update(|settings| {
            settings.practice = home == Which::Practice;
            settings.last_card = None;
        });
        self.settings.with_untracked(Settings::keep);
        let fresh = TabletId::new(device::new_id('t'));
        match self.store().tablet_or(fresh).await {
            Ok(tablet) => self.inner.update_value(|inner| inner.tablet = tablet),
            Err(error) => return self.saving.set(Saving::Failed(store_words(&error))),
        }
        if self.writing.get_untracked() == Writing::Here {
            self.claim().await;
        } else if let Err(error) = self.read_home().await {
            self.saving.set(Saving::Failed(store_words(&error)));
        }
        if self.saving.get_untracked() == Saving::Busy {
            self.saving.set(Saving::Idle);
        }
    }

    /// The sheet that the made-up shop is put on: the bay's own where it is kept.
    fn shop_for_demo(self) -> Trail {
        if self.book.with_untracked(|book| book.is_empty()) {
            return Trail::new(shop::practice_id());
        }
        self.inner.with_value(|inner| inner.shop.clone())
    }

    /// Empties the practice bay, unless somebody has learned in it, and puts a made-up shop and a half-done card into it.
    pub(crate) async fn lay_out_demo(self) {
        self.change_home(Which::Practice).await;
        let (practice, writer) = self
            .inner
            .with_value(|inner| (inner.practice.clone(), inner.writer));
        let Some(writer) = writer else { return };
        let made = crate::demo::make(
            &self.procedures(),
            &self.tablet(),
            device::now(),
            &self.new_card_id(),
            &self.shop_for_demo(),
        );
        // What people have learned stays, and so do their runs: then the made-up card comes beside them.
        let mut kept = if self.book.with_untracked(|book| book.is_empty()) {
            practice.erase_all(writer).await
        } else {
            Ok(())
        };
        for (trail, row) in [(&made.shop, String::new()), (&made.card, made.row.clone())] {
            if kept.is_ok() {
                let known = self.shop_for_demo();
                let is_new = |line: &&Line| {
                    trail.card() != known.card() || known.all().all(|old| old != *line)
                };
                let rows: Vec<Row> = trail
                    .all()
                    .filter(is_new)
                    .map(|line| Row {
                        tablet: line.tablet.clone(),
                        n: line.n,
                        text: line.text().to_owned(),
                    })
                    .collect();
                kept = self.store().append(trail.card(), &rows, &row, writer).await;
            }
        }
        if let Err(error) = kept {
            return self.saving.set(Saving::Failed(store_words(&error)));
        }
        if let Err(error) = self.read_home().await {
            return self.saving.set(Saving::Failed(store_words(&error)));
        }
        self.me.set(Some(made.person.clone()));
        self.settings
            .update(|settings| settings.last_person = Some(made.person.clone()));
        self.settings.with_untracked(Settings::keep);
        self.open_card(made.card.card().clone(), Some(Screen::Map))
            .await;
    }
}

/// The made-up person of the practice bay.
const BESIDE: &str = "practice-beside";

/// Somebody signs on to a run. Beside an apprentice stands a made-up person, so that the rules are
/// the real ones; as a foreman who only looks they are waited for nowhere.
fn on_a_run(person: &PersonId, name: &str, role: Role) -> Vec<Draft> {
    let mut drafts = vec![act::sign_on(person, name, role)];
    if role == Role::Apprentice {
        let beside = PersonId::from(BESIDE);
        drafts.push(act::sign_on(&beside, &t("ui.run.beside"), Role::Foreman));
    }
    drafts
}

/// The trail of a home's shop sheet.
fn sheet_of(home: Which) -> CardId {
    match home {
        Which::Shop => shop::card_id(),
        Which::Practice => shop::practice_id(),
    }
}

/// What stands against a change of the shop sheet.
pub(crate) fn shop_words(refusal: Refusal) -> Words {
    match refusal {
        Refusal::Words(words) => words,
        Refusal::Stale | Refusal::Held(_) => Words::plain("refuse.stale"),
    }
}

/// What a store's fault says on the screen. Nothing that was kept is lost by any of them.
pub(crate) fn store_words(error: &StoreError) -> Words {
    match error {
        StoreError::Full => Words::plain("store.full"),
        StoreError::OtherHome { .. } => Words::plain("store.other-home"),
        StoreError::NotTheWriter { .. } | StoreError::Taken { .. } => {
            Words::plain("store.other-tab")
        }
        StoreError::Blocked => Words::plain("store.blocked"),
        StoreError::Newer => Words::plain("store.newer"),
        StoreError::Damaged { .. } => {
            Words::with("store.damaged", [("what", Arg::Text(error.to_string()))])
        }
        StoreError::Gone | StoreError::Other { .. } => {
            Words::with("store.gone", [("what", Arg::Text(error.to_string()))])
        }
    }
}
