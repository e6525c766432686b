#include "layout/dot_order.hpp"

#include <graphviz/gvc.h>

#include <algorithm>
#include <deque>
#include <mutex>
#include <string>

extern gvplugin_library_t gvplugin_dot_layout_LTX_library;

namespace towloom {
namespace {

// The library takes char*: names must outlive the graph, and must not move.
class Names {
 public:
  char* operator()(std::string text) {
    kept_.push_back(std::move(text));
    return kept_.back().data();
  }

 private:
  std::deque<std::string> kept_;
};

int ignore(char*) { return 0; }   // what the library has to say is no diagnostic of the job

}  // namespace

std::vector<double> dot_order(const LayeredGraph& graph) {
  static std::mutex one_at_a_time;   // the library crashes with threads
  const std::lock_guard lock(one_at_a_time);
  // Preloading the one plug-in that lays out keeps the library from scanning for others (it costs 4 ms).
  lt_symlist_t plugins[] = {{const_cast<char*>("gvplugin_dot_layout_LTX_library"), &gvplugin_dot_layout_LTX_library},
                            {nullptr, nullptr}};
  GVC_t* context = gvContextPlugins(plugins, 0);
  if (context == nullptr) return {};
  agseterr(AGERR);
  agseterrf(ignore);
  Names name;
  Agraph_t* g = agopen(name("sheet"), Agdirected, nullptr);
  for (const auto& [key, value] : {std::pair{"rankdir", "LR"}, {"splines", "none"}, {"ranksep", "1"}, {"nodesep", "0.1"}})
    agattr(g, AGRAPH, name(key), name(value));
  for (const auto& [key, value] : {std::pair{"outline", "box"}, {"label", ""}, {"fixedsize", "true"}, {"width", "0.2"}, {"height", "0.1"}})
    agattr(g, AGNODE, name(key), name(value));
  agattr(g, AGEDGE, name("weight"), name("1"));
  agattr(g, AGEDGE, name("style"), name(""));

  std::vector<Agnode_t*> nodes;
  int columns = 0;
  for (std::size_t i = 0; i < graph.nodes.size(); ++i) {
    nodes.push_back(agnode(g, name("n" + std::to_string(i)), 1));
    agset(nodes.back(), name("height"), name(std::to_string(graph.nodes[i].height / 10.0)));
    columns = std::max(columns, graph.nodes[i].column + 1);
  }
  // A chain of nodes holds the columns in their order.
  Agnode_t* before = nullptr;
  for (int c = 0; c < columns; ++c) {
    Agraph_t* rank = agsubg(g, name("r" + std::to_string(c)), 1);
    agattr(rank, AGRAPH, name("rank"), name(""));
    agset(rank, name("rank"), name("same"));
    Agnode_t* post = agnode(g, name("c" + std::to_string(c)), 1);
    agsubnode(rank, post, 1);
    if (before != nullptr) agedge(g, before, post, nullptr, 1);
    before = post;
    for (std::size_t i = 0; i < nodes.size(); ++i)
      if (graph.nodes[i].column == c) agsubnode(rank, nodes[i], 1);
  }
  for (const LayeredGraph::Edge& e : graph.edges) {
    Agedge_t* edge = agedge(g, nodes[static_cast<std::size_t>(e.a)], nodes[static_cast<std::size_t>(e.b)], nullptr, 1);
    agset(edge, name("weight"), name(std::to_string(e.weight)));
  }
  for (const auto& [upper, lower] : graph.above) {
    Agedge_t* edge = agedge(g, nodes[static_cast<std::size_t>(upper)], nodes[static_cast<std::size_t>(lower)], nullptr, 1);
    agset(edge, name("style"), name("invis"));
  }
  std::vector<double> out;
  if (gvLayout(context, g, "dot") == 0) {
    for (Agnode_t* node : nodes) out.push_back(ND_coord(node).y);
    // Edges within a column run from the upper to the lower node, whichever way the library counts.
    int upright = 0;
    for (const auto& [upper, lower] : graph.above)
      upright += out[static_cast<std::size_t>(upper)] < out[static_cast<std::size_t>(lower)] ? 1 : -1;
    if (upright < 0 || (graph.above.empty()))
      for (double& y : out) y = -y;
    gvFreeLayout(context, g);
  }
  agclose(g);
  gvFreeContext(context);
  return out;
}

}  // namespace towloom
