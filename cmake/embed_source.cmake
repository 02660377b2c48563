# Writes SOURCE, the C++ file that holds FILE as plyscribe::embedded::SYMBOL. Run by embed.cmake at
# build time, since the size must be a constant and the file may itself be made by the build.
file(SIZE ${FILE} size)
file(WRITE ${SOURCE} "// Made by cmake/embed_source.cmake from ${FILE}
#include \"embedded/${SYMBOL}.h\"

asm(\".section .rodata\\n\"
    \".balign 16\\n\"
    \".hidden plyscribe_embedded_${SYMBOL}\\n\"
    \".global plyscribe_embedded_${SYMBOL}\\n\"
    \"plyscribe_embedded_${SYMBOL}:\\n\"
    \".incbin \\\"${FILE}\\\"\\n\"
    \".byte 0\\n\"
    \".text\\n\");

extern \"C\" const char plyscribe_embedded_${SYMBOL}[];

namespace plyscribe::embedded {
constinit const std::string_view ${SYMBOL}{plyscribe_embedded_${SYMBOL}, ${size}};
}  // namespace plyscribe::embedded
")
