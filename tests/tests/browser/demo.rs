//! The made-up shop and card: one press, in a place of their own, and marked on every screen.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::tablet::Tablet;
use tests::browser::words::word;

#[test]
fn demo() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("demo", &host.address());
    assert!(!tablet.sees("practice-band"));
    tablet.press("demo");
    tablet.wait_to_see("map");
    assert_ne!(
        tablet.reads("progress"),
        word("ui.map.progress", &[("done", "0"), ("of", "0")])
    );

    tablet.go("trail");
    let chain = tablet.reads("trail-chain");
    let lines: String = chain.chars().filter(char::is_ascii_digit).collect();
    assert_eq!(chain, word("ui.trail.whole", &[("lines", &lines)]));
    assert!(
        lines.parse::<usize>().is_ok_and(|lines| lines > 20),
        "{chain}"
    );

    for screen in [
        "map",
        "trail",
        "setup",
        "files",
        "people",
        "stands",
        "tablet",
        "rules",
        "step/A2/raise",
        "step/V/chocks",
        "step/E2L/caging",
        "start",
        "new",
    ] {
        tablet.go(screen);
        assert!(tablet.sees("practice-band"), "no band on {screen}");
    }
    tablet.go("stands");
    assert!(tablet.sees("stand-row-1"));

    tablet.go("start");
    tablet.press("other-home");
    tablet.wait_to_lose("practice-band");
    assert!(
        tablet.sees("no-cards"),
        "a made-up card is among the real ones"
    );
    tablet.go("people");
    assert_eq!(tablet.reads("people"), word("ui.people.none", &[]));
    tablet.go("stands");
    assert!(
        !tablet.sees("stand-row-1"),
        "a made-up stand is among the real ones"
    );
}
