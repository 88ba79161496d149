//! What every home of the trail keeps to. Run on each of them by `memory.rs` and `browser.rs`.
//!
//! A test gets a home in which nothing has been kept yet.
#![expect(
    clippy::unwrap_used,
    reason = "a fault that was not asked for fails the test"
)]

use job::id::CardId;
use store::{Counts, Kept, PracticeHome, Row, StoreError, Summary, TrailStore, WriterNumber};

/// A home under test, and what can be done to it from outside.
pub(crate) trait Home {
    type Store: TrailStore;
    type Practice: PracticeHome;

    /// Opens the shop's store: once more each time, on the same medium.
    async fn open(&self) -> Self::Store;
    async fn open_practice(&self) -> Self::Practice;
    /// Leaves room for a few lines and not for a thousand.
    async fn fill(&self);
    /// Cuts a kept photo of the shop short.
    async fn cut_photo(&self, sha_hex: &str, left_bytes: u32);
}

/// Hands the names of all tests to a macro of the home.
macro_rules! each {
    ($home:ident) => {
        $home! {
            what_was_appended_reads_back_byte_for_byte
            a_card_that_is_not_there_reads_as_nothing
            rows_come_in_order_of_tablet_and_place
            a_taken_place_is_refused_and_nothing_of_the_call_is_kept
            the_same_place_twice_in_one_call_is_refused
            nothing_is_written_without_a_claim
            an_older_writer_is_refused
            the_late_write_of_a_second_store_is_refused
            shop_and_practice_never_mix
            three_thousand_rows_are_kept_or_none
            a_full_store_says_so_and_loses_nothing
            the_tablet_keeps_its_first_id
            a_summary_can_be_rebuilt
            cards_come_in_order
            a_photo_comes_back_as_it_was
            a_cut_photo_is_damaged_until_it_is_kept_again
            a_dropped_future_still_lands
            saves_land_in_the_order_of_their_calls
            it_can_be_used_without_knowing_which_home_it_is
        }
    };
}
pub(crate) use each;

fn row(tablet: &str, n: u32, text: &str) -> Row {
    Row {
        tablet: tablet.into(),
        n,
        text: text.to_owned(),
    }
}

fn card(name: &str) -> CardId {
    CardId::new(name)
}

/// A card of the practice bay.
fn made_up(name: &str) -> CardId {
    CardId::of_practice(name)
}

/// A store keeps nothing at all of a card that belongs to the other home.
async fn refuses(store: &impl TrailStore, other: &CardId, writer: WriterNumber) {
    let refused = Err(StoreError::OtherHome {
        card: other.clone(),
    });
    let rows = [row("t1", 1, "not here")];
    assert_eq!(store.append(other, &rows, "s", writer).await, refused);
    assert_eq!(store.put_summary(other, "s", writer).await, refused);
    let photo = store.keep_photo(other, "0f", b"not here", writer);
    assert_eq!(photo.await, refused);
    assert_eq!(store.read(other).await.unwrap(), []);
    assert_eq!(store.photo("0f").await.unwrap(), None);
}

fn summary(name: &str, text: &str) -> Summary {
    Summary {
        card: card(name),
        text: text.to_owned(),
    }
}

async fn opened(home: &impl Home) -> (impl TrailStore, WriterNumber) {
    let store = home.open().await;
    let writer = store.claim_writer().await.unwrap();
    (store, writer)
}

pub(crate) async fn what_was_appended_reads_back_byte_for_byte(home: &impl Home) {
    let texts = [
        "",
        "plain",
        " spaces  and\ttabs\r\nand ends\n",
        "a nul \0 and a bell \u{7}",
        "e\u{301} is not é; ½ µ Ω 制动 \u{feff}\u{fffe}\u{ffff}",
        "\u{1f69b} \u{10ffff}",
        "{\"typed\":\"1 3/4\",\"unit\":\"in\"}",
    ];
    let rows: Vec<_> = (1..)
        .zip(texts)
        .map(|(n, text)| row("t1", n, text))
        .collect();
    let (store, writer) = opened(home).await;
    store
        .append(&card("c1"), &rows, "s \u{1f69b}\0", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card("c1")).await.unwrap(), rows);

    let again = home.open().await;
    assert_eq!(again.read(&card("c1")).await.unwrap(), rows);
    assert_eq!(
        again.cards().await.unwrap(),
        [summary("c1", "s \u{1f69b}\0")]
    );
}

pub(crate) async fn a_card_that_is_not_there_reads_as_nothing(home: &impl Home) {
    let (store, writer) = opened(home).await;
    store
        .append(&card("c1"), &[row("t1", 1, "a")], "s", writer)
        .await
        .unwrap();
    for name in ["", "c", "c0", "c10", "c2"] {
        assert_eq!(store.read(&card(name)).await.unwrap(), [], "{name}");
    }
}

pub(crate) async fn rows_come_in_order_of_tablet_and_place(home: &impl Home) {
    // The last two stand the other way round in the order of UTF-16.
    let tablets = ["", "t", "t1", "t10", "t2", "\u{ff5e}", "\u{1f69b}"];
    let (store, writer) = opened(home).await;
    for tablet in tablets.iter().rev() {
        for n in [10, 2, u32::MAX, 1] {
            store
                .append(&card("c1"), &[row(tablet, n, "x")], "s", writer)
                .await
                .unwrap();
        }
    }
    let expected: Vec<_> = tablets
        .iter()
        .flat_map(|tablet| [1, 2, 10, u32::MAX].map(|n| row(tablet, n, "x")))
        .collect();
    assert_eq!(store.read(&card("c1")).await.unwrap(), expected);
}

pub(crate) async fn a_taken_place_is_refused_and_nothing_of_the_call_is_kept(home: &impl Home) {
    let (store, writer) = opened(home).await;
    let first = [row("t1", 1, "first"), row("t1", 2, "second")];
    store
        .append(&card("c1"), &first, "before", writer)
        .await
        .unwrap();

    let clash = [
        row("t1", 3, "new"),
        row("t1", 2, "other"),
        row("t1", 4, "new"),
    ];
    let outcome = store.append(&card("c1"), &clash, "after", writer).await;
    let taken = StoreError::Taken {
        card: card("c1"),
        tablet: "t1".into(),
        n: 2,
    };
    assert_eq!(outcome, Err(taken.clone()));
    assert_eq!(store.read(&card("c1")).await.unwrap(), first);
    assert_eq!(store.cards().await.unwrap(), [summary("c1", "before")]);

    // The same text again is refused as well: one call, one line.
    let outcome = store
        .append(&card("c1"), &first[1..], "after", writer)
        .await;
    assert_eq!(outcome, Err(taken));

    // The place is taken on that card and in that strand only.
    store
        .append(&card("c2"), &first, "s", writer)
        .await
        .unwrap();
    store
        .append(&card("c1"), &[row("t2", 2, "x")], "s", writer)
        .await
        .unwrap();
}

pub(crate) async fn the_same_place_twice_in_one_call_is_refused(home: &impl Home) {
    let (store, writer) = opened(home).await;
    let rows = [row("t1", 1, "a"), row("t1", 2, "b"), row("t1", 1, "a")];
    let taken = StoreError::Taken {
        card: card("c1"),
        tablet: "t1".into(),
        n: 1,
    };
    assert_eq!(
        store.append(&card("c1"), &rows, "s", writer).await,
        Err(taken)
    );
    assert_eq!(store.counts().await.unwrap(), Counts::default());
}

pub(crate) async fn nothing_is_written_without_a_claim(home: &impl Home) {
    let (_, ours) = opened(home).await;
    // Claimed in the shop; nobody has claimed the practice bay.
    let practice = home.open_practice().await;
    let store = practice.store();
    let refused = Err(StoreError::NotTheWriter { ours, now: None });
    assert_eq!(
        store
            .append(&made_up("c1"), &[row("t1", 1, "a")], "s", ours)
            .await,
        refused
    );
    assert_eq!(store.put_summary(&made_up("c1"), "s", ours).await, refused);
    assert_eq!(
        store.keep_photo(&made_up("c1"), "5a", b"photo", ours).await,
        refused
    );
    assert_eq!(practice.erase_all(ours).await, refused);
    assert_eq!(store.counts().await.unwrap(), Counts::default());
}

pub(crate) async fn an_older_writer_is_refused(home: &impl Home) {
    let (store, older) = opened(home).await;
    store
        .append(&card("c1"), &[row("t1", 1, "a")], "s", older)
        .await
        .unwrap();
    let newer = store.claim_writer().await.unwrap();
    assert!(older < newer);

    let refused = Err(StoreError::NotTheWriter {
        ours: older,
        now: Some(newer),
    });
    let late = [row("t1", 2, "b")];
    assert_eq!(
        store.append(&card("c1"), &late, "late", older).await,
        refused
    );
    // Not the writer comes first, even where the place is taken too.
    assert_eq!(
        store
            .append(&card("c1"), &[row("t1", 1, "b")], "late", older)
            .await,
        refused
    );
    assert_eq!(store.put_summary(&card("c1"), "late", older).await, refused);
    assert_eq!(
        store.keep_photo(&card("c1"), "5a", b"photo", older).await,
        refused
    );
    assert_eq!(store.cards().await.unwrap(), [summary("c1", "s")]);
    assert_eq!(store.photo("5a").await.unwrap(), None);

    store.append(&card("c1"), &late, "s2", newer).await.unwrap();
    assert_eq!(
        store.read(&card("c1")).await.unwrap(),
        [row("t1", 1, "a"), row("t1", 2, "b")]
    );
}

pub(crate) async fn the_late_write_of_a_second_store_is_refused(home: &impl Home) {
    let (frozen, ours) = opened(home).await;
    let (awake, theirs) = opened(home).await;
    let late = frozen.append(&card("c1"), &[row("t1", 1, "late")], "late", ours);
    let in_time = awake.append(&card("c1"), &[row("t1", 1, "in time")], "s", theirs);
    assert_eq!(
        late.await,
        Err(StoreError::NotTheWriter {
            ours,
            now: Some(theirs)
        })
    );
    in_time.await.unwrap();
    // The one that may not write still reads.
    assert_eq!(
        frozen.read(&card("c1")).await.unwrap(),
        [row("t1", 1, "in time")]
    );
    assert_eq!(frozen.cards().await.unwrap(), [summary("c1", "s")]);
}

pub(crate) async fn shop_and_practice_never_mix(home: &impl Home) {
    let (shop, writer) = opened(home).await;
    let practice = home.open_practice().await;
    let bay = practice.store();
    let bay_writer = bay.claim_writer().await.unwrap();

    shop.append(&card("c1"), &[row("t1", 1, "real")], "real", writer)
        .await
        .unwrap();
    shop.keep_photo(&card("c1"), "5a", b"real", writer)
        .await
        .unwrap();
    assert_eq!(bay.counts().await.unwrap(), Counts::default());
    assert_eq!(bay.read(&card("c1")).await.unwrap(), []);
    assert_eq!(bay.photo("5a").await.unwrap(), None);

    // Neither takes what is the other's, not a line of it.
    refuses(&shop, &made_up("c1"), writer).await;
    refuses(&bay, &card("c1"), bay_writer).await;
    assert_eq!(bay.counts().await.unwrap(), Counts::default());

    bay.append(
        &made_up("c1"),
        &[row("t1", 1, "made up")],
        "made up",
        bay_writer,
    )
    .await
    .unwrap();
    assert_eq!(
        bay.read(&made_up("c1")).await.unwrap(),
        [row("t1", 1, "made up")]
    );
    assert_eq!(bay.tablet_or("bay".into()).await.unwrap().as_str(), "bay");
    assert_eq!(
        shop.tablet_or("shop".into()).await.unwrap().as_str(),
        "shop"
    );

    practice.erase_all(bay_writer).await.unwrap();
    assert_eq!(bay.counts().await.unwrap(), Counts::default());
    assert_eq!(bay.tablet_or("new".into()).await.unwrap().as_str(), "bay");
    bay.append(&made_up("c1"), &[row("t1", 1, "next")], "s", bay_writer)
        .await
        .unwrap();

    assert_eq!(
        shop.read(&card("c1")).await.unwrap(),
        [row("t1", 1, "real")]
    );
    assert_eq!(shop.cards().await.unwrap(), [summary("c1", "real")]);
    assert_eq!(
        shop.photo("5a").await.unwrap().as_deref(),
        Some(&b"real"[..])
    );
}

pub(crate) async fn three_thousand_rows_are_kept_or_none(home: &impl Home) {
    let line = "x".repeat(400);
    let rows: Vec<_> = (1..=3000).map(|n| row("t1", n, &line)).collect();
    let (store, writer) = opened(home).await;
    let last = row("t1", 3000, "was here first");
    store
        .append(&card("c1"), std::slice::from_ref(&last), "before", writer)
        .await
        .unwrap();
    let outcome = store.append(&card("c1"), &rows, "after", writer).await;
    let taken = StoreError::Taken {
        card: card("c1"),
        tablet: "t1".into(),
        n: 3000,
    };
    assert_eq!(outcome, Err(taken));
    assert_eq!(store.read(&card("c1")).await.unwrap(), [last]);
    assert_eq!(store.cards().await.unwrap(), [summary("c1", "before")]);

    store
        .append(&card("c2"), &rows, "all", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card("c2")).await.unwrap(), rows);
    let counts = Counts {
        cards: 2,
        lines: 3001,
        photos: 0,
    };
    assert_eq!(store.counts().await.unwrap(), counts);
}

pub(crate) async fn a_full_store_says_so_and_loses_nothing(home: &impl Home) {
    let (store, writer) = opened(home).await;
    let first = row("t1", 1, "first");
    store
        .append(&card("c1"), std::slice::from_ref(&first), "s", writer)
        .await
        .unwrap();
    home.fill().await;

    let many: Vec<_> = (2..1002)
        .map(|n| row("t1", n, "too many of them"))
        .collect();
    assert_eq!(
        store.append(&card("c1"), &many, "after", writer).await,
        Err(StoreError::Full)
    );
    assert_eq!(
        store.read(&card("c1")).await.unwrap(),
        std::slice::from_ref(&first)
    );
    assert_eq!(store.cards().await.unwrap(), [summary("c1", "s")]);

    // What still fits is still taken, and in the place that was refused.
    let second = row("t1", 2, "second");
    store
        .append(&card("c1"), std::slice::from_ref(&second), "s2", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card("c1")).await.unwrap(), [first, second]);
}

pub(crate) async fn the_tablet_keeps_its_first_id(home: &impl Home) {
    let store = home.open().await;
    assert_eq!(
        store.tablet_or("first".into()).await.unwrap().as_str(),
        "first"
    );
    assert_eq!(
        store.tablet_or("second".into()).await.unwrap().as_str(),
        "first"
    );
    let again = home.open().await;
    assert_eq!(
        again.tablet_or("third".into()).await.unwrap().as_str(),
        "first"
    );
}

pub(crate) async fn a_summary_can_be_rebuilt(home: &impl Home) {
    let (store, writer) = opened(home).await;
    let line = row("t1", 1, "a");
    store
        .append(&card("c1"), std::slice::from_ref(&line), "wrong", writer)
        .await
        .unwrap();
    store
        .put_summary(&card("c1"), "right", writer)
        .await
        .unwrap();
    assert_eq!(store.cards().await.unwrap(), [summary("c1", "right")]);
    assert_eq!(store.read(&card("c1")).await.unwrap(), [line]);
}

pub(crate) async fn cards_come_in_order(home: &impl Home) {
    let names = ["c1", "c10", "c2", "\u{ff5e}", "\u{1f69b}"];
    let (store, writer) = opened(home).await;
    for name in names.iter().rev() {
        store
            .append(&card(name), &[row("t1", 1, "a")], name, writer)
            .await
            .unwrap();
    }
    let expected = names.map(|name| summary(name, name));
    assert_eq!(store.cards().await.unwrap(), expected);
}

pub(crate) async fn a_photo_comes_back_as_it_was(home: &impl Home) {
    let bytes: Vec<u8> = (0..300_000u32).map(|n| (n % 251) as u8).collect();
    let (store, writer) = opened(home).await;
    store
        .keep_photo(&card("c1"), "5a", &bytes, writer)
        .await
        .unwrap();
    store
        .keep_photo(&card("c1"), "00", b"", writer)
        .await
        .unwrap();
    let again = home.open().await;
    assert_eq!(
        again.photo("5a").await.unwrap().as_deref(),
        Some(&bytes[..])
    );
    assert_eq!(again.photo("00").await.unwrap().as_deref(), Some(&b""[..]));
    assert_eq!(again.photo("5b").await.unwrap(), None);

    // Again is no fault; other bytes under the same name are, and change nothing.
    store
        .keep_photo(&card("c1"), "5a", &bytes, writer)
        .await
        .unwrap();
    let other = store.keep_photo(&card("c1"), "5a", b"other", writer).await;
    assert!(
        matches!(
            other,
            Err(StoreError::Damaged {
                kept: Kept::Photo,
                ..
            })
        ),
        "{other:?}"
    );
    assert_eq!(
        store.photo("5a").await.unwrap().as_deref(),
        Some(&bytes[..])
    );
    assert_eq!(store.counts().await.unwrap().photos, 2);
}

pub(crate) async fn a_cut_photo_is_damaged_until_it_is_kept_again(home: &impl Home) {
    let (store, writer) = opened(home).await;
    store
        .keep_photo(&card("c1"), "5a", b"a photo", writer)
        .await
        .unwrap();
    home.cut_photo("5a", 3).await;
    let damaged = StoreError::Damaged {
        kept: Kept::Photo,
        expected: "7 bytes".to_owned(),
        found: "3 bytes".to_owned(),
    };
    assert_eq!(store.photo("5a").await, Err(damaged));
    store
        .keep_photo(&card("c1"), "5a", b"a photo", writer)
        .await
        .unwrap();
    assert_eq!(
        store.photo("5a").await.unwrap().as_deref(),
        Some(&b"a photo"[..])
    );
}

pub(crate) async fn a_dropped_future_still_lands(home: &impl Home) {
    let (store, writer) = opened(home).await;
    drop(store.append(&card("c1"), &[row("t1", 1, "a")], "s", writer));
    drop(store.keep_photo(&card("c1"), "5a", b"a photo", writer));
    // Not even the store is needed any longer.
    drop(store);
    let again = home.open().await;
    // A write waits for the writes before it; a read of another connection may overtake them.
    let next = again.claim_writer().await.unwrap();
    again.put_summary(&card("c2"), "s", next).await.unwrap();
    assert_eq!(again.read(&card("c1")).await.unwrap(), [row("t1", 1, "a")]);
    assert_eq!(
        again.photo("5a").await.unwrap().as_deref(),
        Some(&b"a photo"[..])
    );
}

pub(crate) async fn saves_land_in_the_order_of_their_calls(home: &impl Home) {
    let (store, writer) = opened(home).await;
    let saves: Vec<_> = (1..=20)
        .map(|n| store.append(&card("c1"), &[row("t1", n, "a")], &n.to_string(), writer))
        .collect();
    let seen = store.cards();
    for save in saves.into_iter().rev() {
        save.await.unwrap();
    }
    assert_eq!(seen.await.unwrap(), [summary("c1", "20")]);
}

pub(crate) async fn it_can_be_used_without_knowing_which_home_it_is(home: &impl Home) {
    let store: Box<dyn TrailStore> = Box::new(home.open().await);
    let writer = store.claim_writer().await.unwrap();
    store
        .append(&card("c1"), &[row("t1", 1, "a")], "s", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card("c1")).await.unwrap(), [row("t1", 1, "a")]);
}
