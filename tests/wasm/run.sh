#!/usr/bin/env bash
# bash tests/wasm/run.sh [BUILD]   builds engine, marker and generators with the WebAssembly compiler, runs the driver there and
# natively (from the CMake folder BUILD, build/release), and demands the same bytes. Counts as one test.
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
native=$(realpath -m "${1:-build/release}")
root=$PWD
out=build/wasm
mkdir -p "$out/inc" "$out/obj"

failed() {
  echo "WebAssembly: $1"
  echo "0 passed, 1 failed"
  exit 1
}

# The tables and question texts that CMake wrote are compiled here, too.
cmake --build "$native" --target portability_driver --parallel "$(nproc)" >"$out/native.log" 2>&1 || { tail -n 30 "$out/native.log"; failed "the native driver does not build"; }

# The system's headers must not come in whole (they are the wrong machine's), only these libraries.
for library in boost fmt; do ln -sfn "/usr/include/$library" "$out/inc/$library"; done

# Ninja keeps the objects that are still good; what an object read is in its .d file.
export NODE_PATH=/usr/share/nodejs
command -v ccache >/dev/null && export EM_COMPILER_WRAPPER=ccache
# Not optimised: what is compared is what is printed, and it compiles in half the time.
flags="-std=c++20 -O0 -fexceptions -DFMT_HEADER_ONLY -Wall -Wextra -I$root -isystem inc"
{
  echo "rule compile"
  echo "  command = em++ $flags -MD -MF \$out.d -c \$in -o \$out"
  echo "  depfile = \$out.d"
  echo "  deps = gcc"
  echo "rule link"
  echo "  command = em++ -O2 -fexceptions \$in -o \$out -s SINGLE_FILE=1 -s ALLOW_MEMORY_GROWTH=1 -s EXIT_RUNTIME=1"
  objects=
  for source in engine/*.cpp marker/*.cpp generators/*.cpp tests/wasm/driver.cpp "$native"/{engine,marker,generators}/*_tables.cpp "$native"/app/question_*.cpp; do
    [ -f "$source" ] || continue
    object=obj/$(basename "$(dirname "$source")")-$(basename "$source" .cpp).o
    case $source in /*) ;; *) source=$root/$source ;; esac
    echo "build $object: compile $source"
    objects+=" $object"
  done
  echo "build driver.js: link$objects"
} >"$out/build.ninja"
ninja -C "$out" -j "$(nproc)" driver.js >"$out/build.log" 2>&1 || { tail -n 60 "$out/build.log"; failed "the build failed"; }

"$native/tests/portability_driver" >"$out/native.txt" || failed "the native driver ended with status $?"
node "$out/driver.js" >"$out/wasm.txt" || failed "the driver ended with status $? in Node"
[ -s "$out/native.txt" ] || failed "the driver printed nothing"
cmp "$out/native.txt" "$out/wasm.txt" || { diff "$out/native.txt" "$out/wasm.txt" | head -n 20; failed "the two builds differ"; }
echo "WebAssembly: $(wc -l <"$out/native.txt") lines, the same bytes as the native build"
echo "1 passed, 0 failed"
