#include "record/book.h"

#include <catch2/catch.hpp>

#include <thread>

using namespace strikeoff;

TEST_CASE("a shared text reads as the text it was given, and blank when it was given none", "[record]")
{
    SharedText mix = "4000AE";
    CHECK(mix == "4000AE");
    CHECK("Mix " + mix == "Mix 4000AE");
    CHECK(mix + ", air" == "4000AE, air");
    CHECK(SharedText{} == "");
    CHECK(SharedText{std::string{}}.empty());
    const std::string withNul("a\0b", 3);
    CHECK(SharedText{withNul}.str() == withNul);
    CHECK(SharedText{"3500"} < SharedText{"4000"});
}

TEST_CASE("changing one row's text leaves the rows that shared it", "[record]")
{
    Ticket first;
    first.mix = "3500AE";
    auto second = first;
    CHECK(&first.mix.str() == &second.mix.str());  // kept once
    second.mix.assign("4500AE");
    CHECK(first.mix == "3500AE");
    first = second;
    CHECK(first.mix == "4500AE");
    auto& itself = first;
    first = itself;
    CHECK(first.mix == "4500AE");
}

TEST_CASE("threads may hold and drop the same texts", "[record]")
{
    // A text that its last holder is just letting go of while another thread asks for it anew is the case that goes wrong, if any does.
    std::vector<std::thread> threads;
    std::atomic<int> wrong = 0;
    for (int t = 0; t < 4; ++t)
        threads.emplace_back([&wrong] {
            for (int i = 0; i < 20'000; ++i) {
                const auto text = "truck " + std::to_string(i % 3);
                const SharedText held{text};
                const auto copy = held;
                if (copy.str() != text) ++wrong;
            }
        });
    for (auto& thread : threads) thread.join();
    CHECK(wrong == 0);
}

TEST_CASE("a row of hours stays small: a busy book holds hundreds of thousands", "[record]")
{
    CHECK(sizeof(Hours) <= 88);
    CHECK(sizeof(Ticket) <= 232);
    CHECK_THROWS_AS(Id<Job>{std::int64_t{1} << 32}, DomainError);
}
