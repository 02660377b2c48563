#include <string>

#include "hearing/units.h"

namespace plyscribe::hearing {

void add_units_by_ear(const std::vector<Token>& tokens, Script /*script*/, UnitGraph& g) {
  g.node_of_token.resize(tokens.size() + 1);
  for (std::size_t t = 0; t <= tokens.size(); ++t) g.node_of_token[t] = static_cast<std::uint32_t>(t);
  g.token_at_node.resize(tokens.size() + 1);
  for (std::size_t t = 0; t <= tokens.size(); ++t) g.token_at_node[t] = static_cast<std::int32_t>(t);
  g.arcs.resize(tokens.size() + 1);
}

}  // namespace plyscribe::hearing
