# cmake -G Ninja -C .presets/release.cmake -B .build/release
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(STRIKEOFF_WARNINGS_AS_ERRORS ON CACHE BOOL "")
set(STRIKEOFF_PRECOMPILE ON CACHE BOOL "")
