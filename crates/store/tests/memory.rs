//! The contract on the home in memory.
#![cfg(not(target_arch = "wasm32"))]

mod contract;

use futures_util::FutureExt;
use store::memory::{Medium, MemoryPractice, MemoryStore};

#[derive(Default)]
struct Memory {
    shop: Medium,
    practice: MemoryPractice,
}

impl contract::Home for Memory {
    type Store = MemoryStore;
    type Practice = MemoryPractice;

    async fn open(&self) -> MemoryStore {
        MemoryStore::on(&self.shop)
    }

    async fn open_practice(&self) -> MemoryPractice {
        self.practice.clone()
    }

    async fn fill(&self) {
        self.shop.leave_room_bytes(1000);
    }

    async fn cut_photo(&self, sha_hex: &str, left_bytes: u32) {
        self.shop.cut_photo(sha_hex, left_bytes as usize);
    }
}

macro_rules! in_memory {
    ($($name:ident)*) => {$(
        #[test]
        fn $name() {
            let home = Memory::default();
            contract::$name(&home).now_or_never().expect("memory never makes anyone wait");
        }
    )*};
}

contract::each!(in_memory);
